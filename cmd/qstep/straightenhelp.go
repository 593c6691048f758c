package main

const straightenHelp = `qstep straighten makes a photo or scan flat and to scale, as the window does.

  qstep straighten PICTURE --ref REF [--corners x,y,x,y,x,y,x,y] [more] -o F.png
  qstep straighten PICTURE PICTURE ... --ref REF [--join x,y=x,y ...] -o F.png

Places are in pixels of the picture as it is displayed, from its upper left
corner; the middle of the first pixel is 0.5,0.5. Corners may come in any order
and need not be exact: the edges are looked for within some pixels of them.

REF is what makes it flat:
  scan      the file's own pixels to the inch; what is used for a scan if --ref
            is not given
  targets   Quarterstep's own printed targets, strips or cards, found by
            themselves. --apart "41 cm,57 cm" is how far the cards 1 and 2, and 2
            and 3 lie apart, from middle to middle: it checks what was printed,
            and is needed where only the middles of the cards can be seen
  a4        a plain A4 page beside the piece, --corners its four corners
  letter    a plain Letter page, --corners its four corners
  mat       a cutting mat, --corners those of one square, or of a block of them:
            --cell 10mm (or 1in) the side of a square, --squares 3x2 how many of
            them across and down lie between the corners
  card      a bank card, --corners its four corners as if they were sharp. It is
            too small to trace by, and says how far off it may be

more:
  --known "x,y,x,y=10 cm"   a length that is drawn or was measured on the paper.
            It checks and corrects a scan, each way by itself where it runs along
            it; a photo it checks as a whole. May be given several times
  --card x,y,x,y,x,y,x,y    a bank card lying on the paper: checks the scale
            roughly, and changes nothing
  --lens FILE   remembered lenses, a JSON list. The lens of the same camera is
            used where the reference does not tell it; one that is learnt is
            written there
  --turn N  turns the flat picture to the right by N quarters
  --json    says all on standard output as one object

Several pictures of one piece become one flat picture: each is made flat by
itself (--corners once for each, in their order), then laid on the others by what
they show alike; let them overlap by a hand's breadth or more. Where that does
not tell, or to say it yourself, by two or more places seen in both: --join
x,y=x,y is a place in the first and in the second; with more than two pictures
1:x,y=3:x,y. Known lengths and cards of another picture than the first are typed
2:x,y,x,y=10 cm.

F.png says its pixels to the metre (pHYs): whatever reads that, as qstep trace
does, knows its mm. What is said of each picture is how far it is to be trusted.

--json has:
  pictures  for each: name, says, points (how many places it goes by), lens: k1,
            centre, scale (pixels), h: nine numbers, row by row
  from      x, y: mm of the first picture's reference at the corner of F.png
  per_mm    pixels of F.png to a mm;  size_mm: across, down
A place p of a picture lies at h(q) - from, in mm of F.png, where q is p without
the bend of the lens: p = centre + (q - centre) (1 + k1 (|q - centre| / scale)²).
`
