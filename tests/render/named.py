from tutor.ui.action import Action


class Named(str, Action):
    """An action that does nothing but have a name."""

    __slots__ = ()
