"""All that the coach says, in English. Whoever translates it replaces the modules of this folder.

A key leads to a tuple of variants that say the same; what is on the cube chooses one. Names in braces are
filled in. Every text of one group may use every field of that group:

* of a turn (``did``, ``coming``, ``look``, ``idea``, ``aim``, ``next``, ``why``, ``slip``): ``turn``;
  ``corner`` and ``edge`` by their colours; ``c``, ``e``, ``both``, ``two``, ``pair`` in brief;
  ``corner_place`` and ``edge_place``; ``corner_spot`` and ``edge_spot``, the same without the layer;
  ``points``, where the cross colour of the corner points; ``edge_up``, the edge's colour on top; ``kept``,
  the cross and the pairs kept; ``all_kept``, that they are solved; ``lifted``, the layer that is turned; all
  these also with ``was_`` for before the turn; ``cross``, the cross colour; ``slot``; ``layer`` of the turn
  and ``next``, the layer that turns next; ``taken_out`` and ``put_back``, all that the turn moves so, and
  ``were``, the verb for ``taken_out``;
* of its price (``cost``): ``to_go`` (``three more turns``), ``extra``, ``longer``, ``turns``, ``step``.
"""

from __future__ import annotations

from collections.abc import Mapping

from tutor.coach.words.explain import EXPLAIN_TEXTS
from tutor.coach.words.hints import HINT_TEXTS
from tutor.coach.words.names import NAME_TEXTS
from tutor.coach.words.rail import RAIL_TEXTS
from tutor.coach.words.review import REVIEW_TEXTS
from tutor.coach.words.solve import SOLVE_TEXTS
from tutor.coach.words.turns import TURN_TEXTS
from tutor.coach.words.why import WHY_TEXTS

TEXTS: Mapping[str, tuple[str, ...]] = {
    **NAME_TEXTS,
    **TURN_TEXTS,
    **HINT_TEXTS,
    **WHY_TEXTS,
    **REVIEW_TEXTS,
    **RAIL_TEXTS,
    **EXPLAIN_TEXTS,
    **SOLVE_TEXTS,
}
"""Every text by its key."""
