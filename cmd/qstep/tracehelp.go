package main

const traceHelp = `qstep trace traces pieces off a flat picture by clicks in a file, as the window
does when clicked so.

  qstep trace F.png --clicks FILE.json --chart CHART [--no-links] -o P.qstep

F.png is a picture that says its scale: one of qstep straighten, or a scan.
--clicks may be given several times. P.qstep has the picture and the pieces, on
the Shelf, their sizes matched corner by corner; what surely is one seam or one
line is linked, unless --no-links is given. Standard output says what was
understood, and with "Look at" where a line followed is doubtful.

FILE.json is one object; what is not needed is left out:
  unit      of all places: "mm" from the upper left corner of F.png, or "px" of
            it (the middle of its first pixel is 0.5, 0.5); "mm" if left out
  reach     mm that a click may be from what it means; 0.8 if left out. A click goes
            to the crossing of printed lines within that, else to the middle of
            the line within half of it
  pieces    a list of pieces, each:
    name, cut     cut: how often it is cut, 1 if left out
    sizes         a list, each:
      size          its name on the chart
      corners       its corners in order, either way round, from any corner: each
                    [x, y], or {"at": [x, y]} with what is said of the edge from
                    it to the next: "via": [[x, y], ...] points on the way,
                    "straight": true whatever is printed, "fold": true straight
                    and on the fold
      propose       true: the corners and edges are proposed from the sizes before
                    it, and "corners" has only those to put right, each
                    {"corner": N, "at": [x, y]}, N from 1 as in the size clicked
                    first
    edges         names: {"edge": N, "name": "side seam", "kind": "fold" or
                  "centre" or "hem" or "", "allowance": "1 cm"}; edge N goes from
                  corner N to the next in the size clicked first
    lines         {"kind": "grain" or "lengthen" or "bust" or "waist" or "hip",
                  "from": [x, y], "to": [x, y], "size": S}; without size for all
    notches       {"at": [x, y], "size": S, "double": true}
    darts         {"name": "waist dart", "size": S, "from": [x, y],
                  "apex": [x, y], "to": [x, y]}: from and to are corners
    gaps          of a piece clicked in one size: {"corner": N, "across": "6 mm",
                  "along": "3 mm"}, how far a corner moves to the next size up

A piece in three sizes, the third proposed and one of its corners put right:

  {"pieces": [{"name": "Pocket", "cut": 2,
    "sizes": [
      {"size": "38", "corners": [[30, 30], [130, 36], [150, 110], [30, 110]]},
      {"size": "40", "corners": [[26, 26], [139, 32], [159, 119], [26, 119]]},
      {"size": "42", "propose": true, "corners": [{"corner": 2, "at": [148, 28]}]}],
    "edges": [{"edge": 4, "name": "centre", "kind": "fold"}],
    "lines": [{"kind": "grain", "from": [95, 50], "to": [95, 95]}]}]}

The pieces of FILE.json are traced in their order. A file that cannot be used is
told by its piece, size and corner, and nothing is written.
`
