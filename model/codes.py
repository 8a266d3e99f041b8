"""Every kind of problem that building and checking a piece can find, by its stable code."""

CODES: dict[str, str] = {
    # building
    "part-cannot-be-made": "a part cannot be placed, or cut to what it meets",
    "shaping-fails": "a shaping does not leave one sound solid, or takes nothing away",
    "joint-fails": "a joint cannot be cut where its parts meet",
    "joint-not-found": "the two kinds of part of a joint meet nowhere",
    "joint-count": "a joint is found more often, or less, than the design says",
    "fixing-fails": "a fixing cannot be bored where its parts touch",
    "fixing-not-found": "the two kinds of part of a fixing touch nowhere",
    "fixing-count": "a fixing is driven more often, or less, than the design says",
    # the fit check
    "unsound-solid": "a part is not one solid of the volume its faces enclose",
    "same-place": "two parts occupy the same place",
    "fixing-in-the-way": "a fixing occupies the same place as a part or another fixing",
    "blocked-opening": "a drawer, door or lid runs into something when it is opened",
    "glue-faces-apart": "a glued joint has no faces that touch",
}
