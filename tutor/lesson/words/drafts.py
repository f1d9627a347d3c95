"""The texts of a draft: a lesson that can be played at once, for a teacher to write over."""

from __future__ import annotations

from tutor.counting import figured


def device_name(written: str) -> str:
    """A name that Windows keeps for a device; lessons go from system to system."""
    return f"“{written}” is no name for a lesson: on Windows it is a device; choose another"


def bad_name(written: str, most: int) -> str:
    """A name that a lesson cannot have."""
    return (
        f"“{written}” cannot name a lesson; write at most {figured(most, 'small letter')}, "
        "digits and hyphens, for example corner-up-high"
    )


# --------------------------------------------------------------------------------- comments for the teacher


def about_case(case: str, slot: str) -> str:
    """The first line: what the draft is about."""
    return f"# A draft for the case “{case}” in the slot {slot}."


HOW_TO_GO_ON = (
    "# Write your own texts over these, then check the file: pairwright lesson check FILE",
    "# The program fills in the words in braces. So the lesson is true in every slot and in the mirror.",
)
ASK_FIRST = "# Ask before you explain: the program knows the true answer, and why another is wrong."
ROUTE = "# The program works the route out when it plays the lesson. Each step has a text of its own."
THEIR_TURN = "# The same position, now for the learner. extent may be turn, step or case."
MIRROR = "# The mirror image, in the slot beside it."
ALONE = "# Without help, in two more slots."

# ------------------------------------------------------------------------------------ texts for the learner

GOAL = "You can say in one sentence what the learner can do afterwards."
IDEA = "name the one idea of the lesson"
LOOK = "The corner is {corner.place}, and the edge is {edge.place}. What do you see?"
WHICH_STEP = "Which step comes first?"
BECAUSE = "The step is {step}."
WATCH = "Watch how the pair goes into its slot."
STEPS = {
    "raise": "Raise: you lift the two pieces to the top and put everything else back in place.",
    "part": "Part: you set the two apart, so that they will meet the right way round.",
    "join": "Join: the two meet, colour to colour.",
    "insert": "Insert: the pair slides into its slot, and you lower the slot.",
}
SOLVE = "Now solve the pair. {turns.left} are enough."
SOLVE_MIRROR = "Now solve its mirror image in the {slot}."
SOLVE_ALONE = "Now without help: solve the pair of the {slot}."
SOLVE_ALONE_AGAIN = "Once more without help: solve the pair of the {slot}."
REMEMBER = "Here is what to remember."
POINTS = ("Write one sentence here.", "Write another one here.")


def route_line(route: str) -> str:
    """The route as a comment at the head of a draft."""
    return f"# Route   {route}"


def shortest_line(turns: str) -> str:
    """The line as a comment below the route."""
    return f"# Line    {turns}"
