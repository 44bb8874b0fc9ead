"""Questions one by one, each answer checked as it comes and asked again with the reason."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from textwrap import wrap

import click

from bracecalc.errors import JobError, OutputError
from bracecalc.jobfile.answers import SEVERAL
from bracecalc.jobfile.limits import DIMENSIONS, usual_in_words
from bracecalc.jobfile.readers import TWO_LENGTHS, Context, Entry, compiled, items_of
from bracecalc.jobfile.sheet_file import with_sheet
from bracecalc.jobfile.write import length_text
from bracecalc.records.job import Units
from bracecalc.records.keys import Group, Key, Kind
from bracecalc.tables.load import load_tables
from bracecalc.text.lengths import Dimension, QuantityError, parse_length

WIDTH = 80
INDENT = "  "
STOPPED = "stopped before the last answer; nothing was written"


class Interview:
    """Asks, checks and keeps what was typed, by key.

    Args:
        units: the system of numbers typed without a unit.
        err: ask on standard error, where standard output takes the file.
    """

    def __init__(self, units: Units, *, err: bool) -> None:
        self.values: dict[str, object] = {"units": units.value}
        self._units = units
        self._err = err
        self._context = Context(units, load_tables())

    def say(self, text: str = "", *, indent: str = "") -> None:
        """Print a paragraph."""
        lines = wrap(text, WIDTH - len(indent)) if text else [""]
        for line in lines:
            click.echo(f"{indent}{line}" if line else "", err=self._err)

    def head(self, title: str, text: str) -> None:
        """Begin a part of the job."""
        self.say()
        self.say(f"{title.upper()}: {text}")

    def ask(
        self,
        path: str,
        *,
        skip: bool = False,
        default: bool = False,
        enter: str | None = None,
        again: bool = False,
    ) -> bool:
        """Ask for one key; return whether it was answered.

        Args:
            path: as ``niche.width``.
            skip: Enter leaves it out.
            default: Enter takes the default, which is shown.
            enter: what Enter comes to, where the schema's words don't fit a question.
            again: Enter keeps what was answered before.
        """
        entry = compiled().single[path]
        shown = _text(entry.key.default, self._units) if default else ""
        if again and path in self.values:
            shown = _answered(self.values[path])
        answer = self._answer(path, entry, shown, skip=skip, enter=enter)
        if answer is None:
            self.values.pop(path, None)
            return False
        self.values[path] = answer
        return True

    def ask_group(self, path: str) -> None:
        """Ask for each key of a table; those that need not be there are skipped with Enter."""
        for entry in compiled().single.values():
            if entry.group.path == path:
                self.ask(entry.group.path_of(entry.key), skip=not entry.key.required)

    def ask_items(self, path: str, one: str) -> None:
        """Ask for the tables of an array until there are no more.

        Args:
            path: as ``unit.doors``.
            one: what one of them is, as "door or drawer".
        """
        items: list[dict[str, object]] = []
        while self.yes(f"{'Another' if items else 'Is there a'} {one}?"):
            item: dict[str, object] = {}
            for entry in compiled().arrays[path].values():
                label = f"{path}.{len(items) + 1}.{entry.key.name}"
                skip = not entry.key.required
                answer = self._answer(label, entry, "", skip=skip)
                if answer is not None:
                    item[entry.key.name] = answer
            items.append(item)
        if items:
            self.values[path] = items
        else:
            self.values.pop(path, None)

    def _change_items(self, path: str) -> None:
        """Offer to keep, take out or type anew the rows of a list that stand already."""
        if path not in self.values:
            self.ask_items(path, "row in this list")
            return
        rows = {"k": "keep them", "n": "type them again", "r": "take them out"}
        way = self.choose(f"{path}: {_answered(self.values[path])}", rows)
        if way == "n":
            self.ask_items(path, "row in this list")
        elif way == "r":
            del self.values[path]

    def ask_layers(self, path: str, what: str, *, skip: bool, keep: bool = False) -> None:
        """Ask for a build-up in one line, as ``gypsum board 1/2 in; plywood 3/4 in``."""
        group = compiled().groups[path]
        self.say(what, indent=INDENT)
        self.say("As: gypsum board 1/2 in; plywood 3/4 in", indent=INDENT)
        while True:
            offer = " (Enter: keep)" if keep else " (Enter: skip)" if skip else ""
            text = self._prompt(f"{path}{offer}")
            if not text and skip:
                if not keep:
                    self.values.pop(path, None)
                return
            if text == "?":
                self._help(compiled().arrays[path]["material"].key)
                continue
            if text.casefold() == "none":
                self.values[path] = []
                return
            try:
                layers = self._layers(text, group)
            except QuantityError as error:
                self._again(text, str(error))
                continue
            entry = compiled().arrays[path]["thickness"]
            if all(self._is_meant(entry, layer["thickness"]) for layer in layers):
                self.values[path] = layers
                return

    def yes(self, question: str, *, default: bool = False) -> bool:
        """Ask for yes or no."""
        while True:
            text = self._prompt(f"{question} [{'Y/n' if default else 'y/N'}]", suffix=" ")
            word = text.casefold()
            if not word:
                return default
            if word in ("y", "yes", "n", "no"):
                return word.startswith("y")
            self._again(text, "y or n")

    def choose(self, question: str, choices: dict[str, str]) -> str:
        """Ask for one of a few letters; Enter takes the first."""
        self.say(question, indent=INDENT)
        for letter, meaning in choices.items():
            self.say(f"{letter}: {meaning}", indent=INDENT * 2)
        first = next(iter(choices))
        while True:
            text = self._prompt(f"{'/'.join(choices)} [{first}]")
            if not text:
                return first
            if text.casefold() in choices:
                return text.casefold()
            self._again(text, f"one of {', '.join(choices)}")

    def ask_line(
        self, label: str, hint: str, read: Callable[[str], Mapping[str, object]], *, enter: str
    ) -> None:
        """Ask for several keys in one line; Enter leaves them out.

        Args:
            label: what stands before the answer.
            hint: what to type.
            read: returns the answers by key.
            enter: what Enter takes.

        Raises:
            OutputError: if the user stops.
        """
        self.say(hint, indent=INDENT)
        while True:
            text = self._prompt(f"{label} (Enter: {enter})")
            if text == "?":
                self.say(hint, indent=INDENT)
                continue
            try:
                found = dict(read(text)) if text else {}
                kept = {path: self._one(path, value) for path, value in found.items()}
            except QuantityError as error:
                self._again(text, str(error))
                continue
            if all(self._is_meant(compiled().single[path], value) for path, value in kept.items()):
                self.values.update(kept)
                return

    def _one(self, path: str, value: object) -> object:
        return _kept(compiled().single[path], value, self._context)

    def height_or_sheet(self, folder: Path) -> bool:
        """Ask for the appliance's height, or for the file of its sheet; return whether a file."""
        entry = compiled().single["unit.height"]
        self.say(
            "Or the file with the appliance's spec sheet, as sheet-of-the-unit.toml", indent=INDENT
        )
        while True:
            self.say(f"{entry.key.what[:1].upper()}{entry.key.what[1:]}", indent=INDENT)
            text = self._prompt("unit.height")
            if text == "?":
                self._help(entry.key)
                continue
            if text.endswith(".toml"):
                try:
                    with_sheet({"unit": text, "units": self._units.value}, where="", folder=folder)
                except JobError as error:
                    self.say(str(error.mistakes[0]))
                    continue
                self.values["unit"] = text
                return True
            try:
                kept = self._one("unit.height", text)
            except QuantityError as error:
                self._again(text, str(error))
                continue
            if self._is_meant(entry, kept):
                self.values["unit.height"] = kept
                return False

    def change(self) -> bool:
        """Offer to change one key; return whether one was named."""
        path = self._prompt("Key to change, as niche.width (Enter: write the file)", suffix=": ")
        if not path:
            return False
        schema = compiled()
        if path in schema.single:
            entry = schema.single[path]
            self.ask(path, skip=not entry.key.required, again=True)
        elif path in ("wall.layers", "niche.soffit_layers"):
            kept = path in self.values
            skip = kept or path != "wall.layers"
            self.ask_layers(path, schema.groups[path].what, skip=skip, keep=kept)
        elif path in schema.arrays:
            self._change_items(path)
        else:
            from bracecalc.jobfile.paths import nearest_key

            self._again(path, nearest_key(path, schema))
        return True

    def _layers(self, text: str, group: Group) -> list[dict[str, object]]:
        entries = compiled().arrays[group.path]
        items = [dict(item) for item in items_of(text, group)]
        for item in items:
            for name, value in item.items():
                item[name] = _kept(entries[name], value, self._context)
        return items

    def _answer(
        self, label: str, entry: Entry, shown: str, *, skip: bool, enter: str | None = None
    ) -> object | None:
        """Ask until the answer can be read, or is skipped."""
        key = entry.key
        what = f"{key.what[:1].upper()}{key.what[1:]}"
        self.say(what, indent=INDENT)
        if key.kind in SEVERAL:
            two = key.kind in (Kind.RANGE, Kind.PAIR)
            hint = "(two, with ; between them)" if two else "(several: with ; between them)"
            self.say(hint, indent=INDENT)
        if key.kind is Kind.FLAG:
            return self.yes(label, default=shown == "yes")
        left_out = enter if enter is not None else key.otherwise if key.otherwise else "skip"
        offer = f" [{shown}]" if shown else f" (Enter: {left_out})" if skip else ""
        while True:
            text = self._prompt(f"{label}{offer}")
            if text == "?":
                self._help(key)
                continue
            if not text and skip and not shown:
                return None
            try:
                kept = _kept(entry, text if text else shown, self._context)
            except QuantityError as error:
                self._again(text, str(error))
                continue
            if self._is_meant(entry, kept):
                return kept

    def _is_meant(self, entry: Entry, kept: object) -> bool:
        """Ask again about what can be but seldom is; return whether to keep it."""
        key = entry.key
        if key.within.usual is None:
            return True
        read = entry.read(kept, self._context)
        for value in read if isinstance(read, tuple) else (read,):
            if not key.within.is_usual(value):
                said = usual_in_words(value, key, self._units)
                self.say(f"{said} ({key.what})", indent=INDENT)
                if not self.yes("Keep it?"):
                    return False
        return True

    def _prompt(self, label: str, *, suffix: str = " = ") -> str:
        try:
            answer = click.prompt(
                label, default="", show_default=False, prompt_suffix=suffix, err=self._err
            )
        except click.Abort:
            click.echo("", err=True)
            raise OutputError(STOPPED) from None
        return str(answer).strip()

    def _again(self, text: str, right: str) -> None:
        from bracecalc.jobfile.paths import shown

        typed = f"read {shown(text)}" if text else "this one needs an answer"
        right = right.replace(TWO_LENGTHS, "32 in; 34 in")  # as typed here, not as in a file
        self.say(f"{typed}; expected {right}", indent=INDENT)

    def _help(self, key: Key) -> None:
        """Say what can be typed."""
        if key.kind is Kind.NAME:
            names = ", ".join(getattr(self._context.tables, key.table))
            self.say(f"One of: {names}", indent=INDENT)
        elif key.kind is Kind.CHOICE:
            self.say(f"One of: {', '.join(key.choices)}", indent=INDENT)
        elif DIMENSIONS.get(key.kind, Dimension.LENGTH) is not Dimension.LENGTH:
            self.say(DIMENSIONS[key.kind].wanted, indent=INDENT)
        else:
            self.say(f"{key.kind.value}, as 33 1/4 in, 7 ft 0.25 in or 845 mm", indent=INDENT)


def _kept(entry: Entry, text: object, context: Context) -> object:
    """Return what goes into the file: the text, a name as its table spells it, a whole number."""
    value = entry.read(text, context)
    if entry.key.kind in (Kind.NAME, Kind.CHOICE):
        return str(value)
    if context.units is Units.INCH and entry.key.kind in (Kind.LENGTH, *SEVERAL):
        parts = str(text).replace(" to ", ";").split(";")
        return "; ".join(_with_unit(part.strip()) for part in parts)
    return text


def _with_unit(text: str) -> str:
    """Return a bare number with its unit, so that the file says it, whatever it is read with."""
    bare = parse_length(text, units=Units.INCH) != parse_length(text, units=Units.MM)
    return f"{text} in" if bare else text


def _answered(value: object) -> str:
    """Return an answer as it may be typed again."""
    if isinstance(value, list):
        return "; ".join(" ".join(str(part) for part in item.values()) for item in value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)


def _text(value: object, units: Units) -> str:
    if isinstance(value, float):
        return length_text(value, units)
    return str(value)
