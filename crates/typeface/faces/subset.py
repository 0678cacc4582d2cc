"""Make the embedded faces from Liberation Sans 2.1.5 (fontTools 4).

usage: python3 subset.py DIRECTORY-OF-LIBERATION-SANS

Debian's package fonts-liberation2 (2.1.5-1) holds the originals in
/usr/share/fonts/truetype/liberation2. Its licence (OFL.txt beside this file)
reserves the name of the original, so a changed face must bear another one.
The same originals give the same bytes.
"""
import sys
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

FAMILY = "Rimwise Sans"
COPYRIGHT = (
    "Digitized data copyright (c) 2010 Google Corporation with Reserved Font Arimo, Tinos and Cousine. "
    "Copyright (c) 2012 Red Hat, Inc. with Reserved Font Name Liberation. Subset of 2026, renamed."
)
LICENCE = "This Font Software is licensed under the SIL Open Font License, Version 1.1."
RANGES = [
    (0x20, 0x7E),  # Latin
    (0xA0, 0xFF),  # Latin-1, with ± × ° · µ ½ and superscripts
    (0x100, 0x17F),  # Latin Extended-A, for names
    (0x384, 0x3CE),  # Greek
    (0x2010, 0x2015),  # hyphens and dashes
    (0x2018, 0x2022),  # quotation marks, daggers, bullet
    (0x2026, 0x2026),  # ellipsis
    (0x2030, 0x2033),  # per mille, primes
    (0x2039, 0x203A),  # single guillemets
    (0x2070, 0x208E),  # superscripts and subscripts
    (0x20AC, 0x20AC),  # euro
    (0x2190, 0x2195),  # arrows
    (0x2202, 0x2265),  # − √ ∞ ∫ ≈ ≠ ≤ ≥
]


def subset(source: Path, style: str) -> None:
    font = TTFont(source, recalcTimestamp=False)
    options = Options()
    options.hinting = False
    options.layout_features = []
    options.notdef_outline = True
    options.recalc_timestamp = False
    options.name_IDs = []
    options.drop_tables += ["GSUB", "GPOS", "GDEF", "DSIG", "kern", "FFTM", "gasp", "hdmx", "VDMX", "LTSH", "PCLT"]
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=[one for first, last in RANGES for one in range(first, last + 1)])
    subsetter.subset(font)
    names = {
        0: COPYRIGHT,
        1: FAMILY,
        2: style,
        3: f"{FAMILY} {style}",
        4: f"{FAMILY} {style}",
        5: "Version 1",
        6: f"{FAMILY.replace(' ', '')}-{style}",
        13: LICENCE,
        14: "https://openfontlicense.org",
    }
    for number, text in names.items():
        font["name"].setName(text, number, 3, 1, 0x409)
    font.save(Path(__file__).with_name(f"{style.lower()}.ttf"))


for each in ("Regular", "Bold"):
    subset(Path(sys.argv[1]) / f"LiberationSans-{each}.ttf", each)
