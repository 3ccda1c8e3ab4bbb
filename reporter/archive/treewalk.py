"""Reads the structure tree back: who owns which mark and annotation, and what each element lacks."""

from __future__ import annotations

from dataclasses import dataclass, field

from pikepdf import Array, Name, Object

_STRUCT_ELEM, _MCR, _OBJR, _LOOKED_AT = Name.StructElem, Name.MCR, Name.OBJR, Name.LookedAt
# Made once: a name built anew for each of 30,000 elements shows in the run time.

ObjectNumber = int
"""An indirect object's number; a file holds no two generations of one."""

_GROUPING = {
    "Document", "Part", "Art", "Sect", "Div", "BlockQuote", "Caption", "TOC", "TOCI", "Index", "NonStruct",
    "Private",
}  # fmt: skip
_BLOCK = {"P", "H", "H1", "H2", "H3", "H4", "H5", "H6", "L", "LI", "Lbl", "LBody"}
_TABLE = {"Table", "TR", "TH", "TD", "THead", "TBody", "TFoot"}
_INLINE = {
    "Span", "Quote", "Note", "Reference", "BibEntry", "Code", "Link", "Annot", "Figure", "Formula", "Form",
}  # fmt: skip
STANDARD = _GROUPING | _BLOCK | _TABLE | _INLINE
"""The standard structure types in use (ISO 32000-1, 14.8.4); Ruby and Warichu are left out."""

_PARENTS = {
    "LI": {"L"}, "LBody": {"LI"}, "TOCI": {"TOC"}, "THead": {"Table"}, "TBody": {"Table"}, "TFoot": {"Table"},
    "TR": {"Table", "THead", "TBody", "TFoot"}, "TH": {"TR"}, "TD": {"TR"},
}  # fmt: skip


_TWICE = "an element stands twice in the tree, or has no object of its own"


@dataclass
class Walk:
    """What one pass over the tree found. Owners are elements by object number; marks are by page and MCID."""

    marks: dict[ObjectNumber, dict[int, ObjectNumber]] = field(default_factory=dict)
    annotations: dict[ObjectNumber, ObjectNumber] = field(default_factory=dict)
    headings: list[int] = field(default_factory=list)
    findings: list[str] = field(default_factory=list)

    def find(self, finding: str) -> None:
        """Note a finding once."""
        if finding not in self.findings:
            self.findings.append(finding)


def number_of(each: Object) -> ObjectNumber:
    """The number of an indirect object; 0 of any other."""
    return each.objgen[0]


def walk_tree(root: Object) -> Walk:
    """Walk the tree once, in reading order; no recursion, so that a hostile file cannot use up the stack."""
    walk = Walk()
    waiting: list[tuple[Object, Object, str]] = [(kid, root, "") for kid in reversed(_own(walk, root))]
    while waiting:
        element, parent, parent_role = waiting.pop()
        if not element.is_indirect or element.get("/Type") == _LOOKED_AT:
            walk.find(_TWICE)
            continue
        role = _check_element(walk, element, parent, parent_role)
        waiting += [(kid, element, role) for kid in reversed(_own(walk, element))]
        _let_go(element)
    _check_headings(walk)
    return walk


def _let_go(element: Object) -> None:
    """Empty an element that has been looked at, in memory, but for a word that tells it: each takes 1.5 kB."""
    for key in set(element.keys()):
        del element[key]
    element.Type = _LOOKED_AT


def _kids(element: Object) -> list[Object | int]:
    kids = element.get("/K")
    if kids is None:
        return []
    return list(kids) if isinstance(kids, Array) else [kids]


def _own(walk: Walk, element: Object) -> list[Object]:
    """Record the element's marks and annotations; return its child elements."""
    children: list[Object] = []
    key = number_of(element)
    for kid in _kids(element):
        if isinstance(kid, int):
            _own_mark(walk, key, element, element.get("/Pg"), kid)
            continue
        kind = kid.get("/Type")
        if kind == _STRUCT_ELEM:
            children.append(kid)
        elif kind == _MCR:
            _own_mark(walk, key, element, kid.get("/Pg", element.get("/Pg")), int(kid.MCID))
        elif kind == _OBJR:
            annotation = number_of(kid.Obj)
            if annotation in walk.annotations:
                walk.find("an annotation belongs to two elements")
            walk.annotations[annotation] = key
        elif kind == _LOOKED_AT:
            walk.find(_TWICE)
        else:
            walk.find(f"{_name(element)} holds something unknown")
    return children


def _own_mark(walk: Walk, key: ObjectNumber, element: Object, page: Object | None, mcid: int) -> None:
    if page is None:
        walk.find(f"{_name(element)} holds mark {mcid} of no page")
        return
    marks = walk.marks.setdefault(number_of(page), {})
    if mcid in marks:
        walk.find(f"mark {mcid} belongs to two elements")
    marks[mcid] = key


def _check_element(walk: Walk, element: Object, parent: Object, parent_role: str) -> str:
    role = _name(element)
    back = element.get("/P")
    if back is None or back.objgen != parent.objgen:
        walk.find(f"{role} does not point back to its parent")
    if role not in STANDARD:
        walk.find(f"{role} is not a standard structure type")
    if role in _PARENTS and parent_role not in _PARENTS[role]:
        walk.find(f"{role} stands in {parent_role or 'the root'}")
    if role in {"Figure", "Formula"} and not str(element.get("/Alt", "")).strip():
        walk.find(f"{role} has no alternative text")
    if role == "Figure" and not _has_attribute(element, "/BBox"):
        walk.find("Figure has no bounding box")
    if role == "TH" and not _has_attribute(element, "/Scope"):
        walk.find("TH has no scope")
    if role == "Note" and "/ID" not in element:
        walk.find("Note has no ID")
    if role[0] == "H" and role[1:].isdecimal():
        walk.headings.append(int(role[1:]))
    return role


def _name(element: Object) -> str:
    return str(element.get("/S", "/?"))[1:]


def _has_attribute(element: Object, key: str) -> bool:
    attributes = element.get("/A")
    if attributes is None:
        return False
    return any(key in each for each in (attributes if isinstance(attributes, Array) else [attributes]))


def _check_headings(walk: Walk) -> None:
    """Hold ISO 14289-1, 7.4.2: the first heading is H1 and none skips a level going down."""
    above = 0
    for level in walk.headings:
        if level > above + 1:
            walk.find(f"H{level} follows {f'H{above}' if above else 'no heading'}")
        above = level
