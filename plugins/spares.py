"""Spares and tools for the steering gear: what is aboard to get her home when wire, chain or a pin has gone.

Comes in: Evidence of what was found in the lockers. Goes out: nothing beyond the declaration: no rule for a yacht says what
spares she carries, so that every line is common practice and none worse than `plan`.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Choice,
    DetailField,
    Evidence,
    ExaminationItem,
    Grade,
    Observation,
    Plugin,
    Remedy,
)


def assess(_evidence: Evidence) -> Assessment:
    """Nothing to reckon: observations decide."""
    return Assessment()


def _aboard(
    ident: str, title: str, whole: str, part: str, action: str, basis: str = "common practice"
) -> Observation:
    """One line of the list: aboard, in part, or not aboard."""
    return Observation(
        id=ident,
        title=title,
        basis=basis,
        choices=(
            Choice(id="aboard", words=whole, grade=Grade.CLEAR),
            Choice(
                id="part",
                words=part,
                grade=Grade.WATCH,
                remedy=Remedy.LOOK,
                action=f"Make good what is missing. {action}",
            ),
            Choice(id="none", words="not aboard", grade=Grade.PLAN, remedy=Remedy.REFIT, action=action),
        ),
    )


plugin = Plugin(
    kind="spares",
    title="Spares and tools for the steering",
    plural="Spares and tools for the steering",
    system="steering",
    load_path=False,
    station="emergency",
    purpose="put wire, chain or a pin right at sea",
    cautions=("Keep chain oil and spare wire apart, and both dry.",),
    tools=("tape measure",),
    supplies=("bags or boxes that keep the wet out", "labels"),
    examination=(ExaminationItem(id="locker", words="the lockers where they are said to be"),),
    details=(DetailField(id="stowed", title="Where they are stowed", holds="words"),),
    observations=(
        _aboard(
            "wire", "Spare steering wire",
            "a wire for each side, made up with its ends, or long enough with ends to fit", "wire, but no ends or the wrong length",
            "Stow a spare steering wire for each side, made up with its ends and labelled",
        ),
        _aboard(
            "clips", "Clips and thimbles",
            "clips of the wire's size, enough for two ends, with thimbles", "too few, or of another size",
            "Stow clips of the wire's size, enough for two ends, with thimbles and a [spanner] that fits them",
        ),
        _aboard(
            "pins", "Pins and [split pin]s",
            "clevis pins and [split pin]s of every size in the gear", "some sizes",
            "Stow clevis pins and [split pin]s of every size in the steering gear",
        ),
        _aboard(
            "links", "Chain links",
            "joining links of the chain's own size, or no chain in this gear", "links of an unknown size",
            "Stow two joining links of the chain's own size",
        ),
        _aboard(
            "tools", "Tools for the steering",
            "[spanner]s, pliers and the key for the deck plate, together and to hand", "in the general tool box, not all of them",
            "Stow the tools for adjusters, sheaves, deck plate and emergency tiller together and to hand",
            basis="common practice; 46 CFR 182.610 asks small passenger vessels for the tools to change over to hand steering",
        ),
        _aboard(
            "plan", "Drawing of the steering",
            "a sketch with lengths, sizes and part descriptions aboard", "sizes noted, no sketch",
            "Make a sketch of the steering with lengths and sizes, and keep it with the spares",
        ),
    ),
    assess=assess,
)  # fmt: skip
