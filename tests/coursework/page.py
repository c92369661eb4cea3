"""Reads a page by the rules of HTML5, strictly, and tells what stands in it as JSON."""

import json
import sys

import html5lib

parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
tree = parser.parse(sys.stdin.buffer.read(), transport_encoding="utf-8")

elements, identifiers, links, tables = [], [], [], []
for element in tree.iter():
    if not isinstance(element.tag, str):
        continue
    elements.append([element.tag, sorted(element.attrib)])
    identifiers.extend(filter(None, [element.get("id")]))
    if element.tag == "a":
        links.append(element.get("href"))
    if element.tag == "table":
        rows = [[["".join(cell.itertext()), cell.tag, cell.get("scope")] for cell in row] for row in element.iter("tr")]
        tables.append(rows)

headings = [[element.tag, "".join(element.itertext())] for element in tree.iter() if element.tag in ("h1", "h2", "h3")]
style = "".join("".join(element.itertext()) for element in tree.iter("style"))
said = "".join(tree.find("body").itertext())
json.dump(
    {
        "elements": elements,
        "identifiers": identifiers,
        "links": links,
        "tables": tables,
        "headings": headings,
        "style": style,
        "said": said,
    },
    sys.stdout,
)
