"""Reads a PDF by a library of another make: python3 read_pdf.py FILE EXPECTED.

EXPECTED holds the words of every page, the pages parted by form feeds.
"""

import pathlib
import sys

import pypdf


def main(path, expected):
    reader = pypdf.PdfReader(path)
    assert reader.metadata.title == "Motley pieces", reader.metadata
    pages = pathlib.Path(expected).read_text().split("\f")
    assert len(reader.pages) == len(pages)
    for page, words in zip(reader.pages, pages):
        read = page.extract_text()
        for word in set(words.split()):
            if all(" " < sign for sign in word):
                assert word in read, f"{word!r} is not in {read!r}"
    width = float(reader.pages[0].mediabox.width) / 72 * 25.4
    print(f"{len(pages)} pages, {width:.1f} mm wide")


if __name__ == "__main__":
    main(*sys.argv[1:])
