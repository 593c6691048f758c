#!/usr/bin/python3
"""Writes the pictures of this folder and truth.csv: what Pillow (its version
is the first line) makes of each, after ImageOps.exif_transpose. Pillow stands
outside this project; run again only to add a file."""
import os
import PIL
from PIL import Image, ImageOps

os.chdir(os.path.dirname(os.path.abspath(__file__)))
W, H = 48, 32


def scene():
    im = Image.new("RGB", (W, H))
    for y in range(H):
        for x in range(W):
            im.putpixel((x, y), [(230, 40, 40), (40, 200, 60), (50, 60, 220), (240, 240, 230), (20, 20, 20), (130, 120, 60)][x // 16 + 3 * (y // 16)])
    return im


def exif(turn=1, model="F4", focal=26, dpi=None):
    e = Image.Exif()
    e[0x010F], e[0x0110], e[0x0112] = "Fennel", model, turn
    if dpi:
        e[0x011A], e[0x011B], e[0x0128] = dpi[0], dpi[1], dpi[2]
    e[0x8769] = {0xA405: focal}
    return e.tobytes()


im = scene()
for t in range(1, 9):
    im.save(f"turn{t}.jpg", quality=95, exif=exif(t))
im.save("jfif-inch.jpg", quality=95, dpi=(200, 200))
im.save("jfif-uneven-turned.jpg", quality=95, dpi=(200, 300), exif=exif(6))
im.save("exif-centimetre.jpg", quality=95, exif=exif(1, "Fennel F5", 31, (118, 118, 3)))
im.save("exif-unknown.jpg", quality=95, dpi=(72, 72), exif=exif(1, dpi=(72, 72, 2)))
im.save("progressive.jpg", quality=95, progressive=True, dpi=(150, 150))
im.convert("L").save("grey.jpg", quality=95)
im.convert("CMYK").save("cmyk.jpg", quality=95)
im.save("metre.png", dpi=(300, 300))
im.save("turned.png", exif=exif(8), dpi=(200, 100))
im.convert("P", palette=Image.Palette.ADAPTIVE, colors=8).save("palette.png")
im.convert("L").convert("I;16").point(lambda v: v * 257).save("deep.png")
a = im.convert("RGBA")
for y in range(H):
    for x in range(W):
        if x >= 32:
            a.putpixel((x, y), (0, 0, 0, 0))
a.save("seethrough.png")
for c in ("raw", "tiff_lzw", "tiff_adobe_deflate", "packbits"):
    im.save(f"{c.replace('tiff_', '').replace('adobe_', '')}.tif", compression=c, dpi=(300, 300))
im.convert("1", dither=Image.Dither.NONE).save("fax.tif", compression="group4", dpi=(400, 200))
im.save("jpeg-inside.tif", compression="jpeg", dpi=(300, 300))

rows = [f"# Pillow {PIL.__version__}: file, width, height, grey at the middles of the six fields left to right, then down"]
for f in sorted(os.listdir(".")):
    if f.endswith((".jpg", ".png", ".tif")) and f != "jpeg-inside.tif":
        i = ImageOps.exif_transpose(Image.open(f))
        if f == "deep.png":
            i = i.point(lambda v: v / 257).convert("L")
        if i.mode == "RGBA":
            i = Image.alpha_composite(Image.new("RGBA", i.size, "white"), i)
        w, h = i.size
        g = i.convert("RGB").convert("L")
        n, m = (3, 2) if w > h else (2, 3)
        rows.append(",".join([f, str(w), str(h)] + [str(g.getpixel((w * (2 * k + 1) // (2 * n), h * (2 * j + 1) // (2 * m)))) for j in range(m) for k in range(n)]))
open("truth.csv", "w").write("\n".join(rows) + "\n")
