"""The twelve measures of a niche, as a figure: python docs/figures/measures.py."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree as ET

PICTURE = Path(__file__).with_name("measures.svg")
WIDTH, HEIGHT = 860, 560
LINE, GREY, BLUE = "#222", "#888", "#0b5c8a"
Point = tuple[float, float]


class Sheet:
    """Draws lines, boxes and numbered measures."""

    def __init__(self) -> None:
        self.root = ET.Element(
            "svg",
            {
                "xmlns": "http://www.w3.org/2000/svg",
                "viewBox": f"0 0 {WIDTH} {HEIGHT}",
                "role": "img",
                "font-family": "sans-serif",
                "font-size": "14",
            },
        )
        title = ET.SubElement(self.root, "title")
        title.text = "What to measure: the niche from the front and from the side, twelve measures"
        self.box((0, 0), (WIDTH, HEIGHT), "#fff", "none")

    def box(self, start: Point, size: Point, fill: str, stroke: str = LINE) -> None:
        """Draw a rectangle."""
        (x, y), (width, height) = start, size
        given = {"x": x, "y": y, "width": width, "height": height}
        shown = {name: f"{value:g}" for name, value in given.items()}
        ET.SubElement(self.root, "rect", {**shown, "fill": fill, "stroke": stroke})

    def line(self, start: Point, end: Point, colour: str = LINE, dashes: str = "") -> None:
        """Draw a line."""
        given = {"x1": start[0], "y1": start[1], "x2": end[0], "y2": end[1]}
        shown = {name: f"{value:g}" for name, value in given.items()}
        style = {"stroke": colour, "stroke-width": "1.5", "stroke-dasharray": dashes}
        ET.SubElement(self.root, "line", {**shown, **style})

    def words(self, at: Point, text: str, *, anchor: str = "middle", colour: str = LINE) -> None:
        """Write a line of words."""
        place = {"x": f"{at[0]:g}", "y": f"{at[1]:g}", "text-anchor": anchor, "fill": colour}
        ET.SubElement(self.root, "text", place).text = text

    def measure(self, number: int, start: Point, end: Point) -> None:
        """Draw a measure: its line with a slash at both ends, its number in a circle."""
        self.line(start, end, BLUE)
        for x, y in (start, end):
            self.line((x - 5, y + 5), (x + 5, y - 5), BLUE)
        self.number(number, ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2))

    def number(self, number: int, at: Point) -> None:
        """Draw a number in a circle."""
        place = {"cx": f"{at[0]:g}", "cy": f"{at[1]:g}", "r": "11", "fill": "#fff", "stroke": BLUE}
        ET.SubElement(self.root, "circle", place)
        self.words((at[0], at[1] + 5), str(number), colour=BLUE)


def _front(sheet: Sheet) -> None:
    sheet.words((190, 22), "from the front")
    sheet.box((60, 50), (260, 400), "#f6f1e6")
    sheet.box((60, 50), (260, 30), "#ddd")
    for x in (120, 240):
        sheet.box((x - 6, 80), (12, 370), "#efe3c8", GREY)
    sheet.box((68, 120), (244, 26), "#e3c88f")
    sheet.box((74, 150), (232, 290), "#eef3f7")
    sheet.line((40, 450), (345, 450))
    sheet.line((30, 470), (355, 470), GREY, "6 4")
    sheet.words((358, 474), "datum", anchor="start", colour=GREY)
    sheet.measure(1, (60, 490), (320, 490))
    sheet.measure(3, (38, 80), (38, 470))
    sheet.measure(5, (60, 93), (120, 93))
    sheet.measure(6, (60, 109), (240, 109))
    sheet.measure(8, (90, 150), (90, 440))
    sheet.measure(9, (74, 330), (306, 330))
    for x in (96, 284):
        sheet.box((x - 4, 440), (8, 10), LINE)
    sheet.measure(7, (284, 450), (284, 470))
    sheet.number(12, (96, 424))


def _side(sheet: Sheet) -> None:
    sheet.words((620, 22), "from the side")
    sheet.box((450, 50), (330, 30), "#ddd")
    sheet.box((720, 80), (14, 370), "#e8e8e8")
    sheet.box((734, 80), (40, 370), "#efe3c8", GREY)
    sheet.box((670, 120), (25, 26), "#e3c88f")
    sheet.box((695, 120), (25, 26), "#e3c88f")
    sheet.box((470, 150), (225, 290), "#eef3f7")
    sheet.line((440, 450), (790, 450))
    sheet.measure(2, (470, 490), (720, 490))
    sheet.measure(10, (470, 330), (695, 330))
    sheet.measure(4, (720, 210), (734, 210))
    for x in (490, 672):
        sheet.box((x - 4, 440), (8, 10), LINE)
    sheet.measure(11, (455, 440), (455, 450))


def picture() -> bytes:
    """Return the figure."""
    sheet = Sheet()
    _front(sheet)
    _side(sheet)
    rows = (
        "1 niche width; 2 its depth at the boards; 3 soffit above the datum; 4 layers of the wall; "
        "5, 6 stud centers from the left;",
        "7 floor above the datum at each leg; 8 appliance height, legs in; 9 its width; "
        "10 its depth; 11 leg travel; 12 thread pitch of a leg",
    )
    for number, text in enumerate(rows):
        sheet.words((WIDTH / 2, 525 + 20 * number), text)
    return ET.tostring(sheet.root)


if __name__ == "__main__":
    PICTURE.write_bytes(picture())
