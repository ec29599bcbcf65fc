"""Frozen dataclasses that cost a quarter of the usual to define.

The standard decorator writes and compiles six methods for every class, 0.8 ms of work. A cold check defines about 70
classes, which made that a fifth of its whole run. Here only `__init__` is compiled, and that when a class turns out to
have many values: nearly all have none to three in a cold check. The other methods are shared by all classes and look
the fields up. To type checkers, `dataclasses.fields` and `dataclasses.replace` nothing is different.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:
    from dataclasses import MISSING, Field, FrozenInstanceError, field, fields
    from dataclasses import dataclass as _standard

    @_standard(frozen=True)
    class _Sample:
        """What the standard decorator says of a class and of its fields besides their names, types and defaults."""

        one: int

    _FIELD = fields(_Sample)[0]._field_type
    _PARAMS = _Sample.__dataclass_params__
    _REPLACE = getattr(_Sample, "__replace__", None)  # for copy.replace, from Python 3.13 on

    def dataclass(*, frozen, slots=False, eq=True):
        """`dataclasses.dataclass` for frozen classes that inherit no fields and define none of these but `__repr__`."""
        if not frozen:
            raise TypeError("these dataclasses are frozen")

        def decorate(plain):
            # Without a docstring the standard decorator would make one from the signature, which takes as long again.
            plain.__doc__ = plain.__doc__ or plain.__name__
            known = _fields(plain)
            made = _slotted(plain, known) if slots else plain
            made.__dataclass_fields__, made.__dataclass_params__ = known, _PARAMS
            made.__match_args__ = tuple(known)
            if _REPLACE is not None:
                made.__replace__ = _REPLACE
            made.__init__ = _init_when_needed(made, slots)
            if "__repr__" not in plain.__dict__:
                made.__repr__ = _repr
            made.__setattr__ = _refuse_to_set
            made.__delattr__ = _refuse_to_delete
            if eq:
                made.__eq__ = _eq
                made.__hash__ = _hash
            if slots and "__reduce__" not in plain.__dict__:
                made.__reduce__ = _reduce
            return made

        return decorate

    def _fields(plain):
        """The fields of a class by name; defaults that `field` states stand on the class, as its others do."""
        known = {}
        for name, kind in plain.__annotations__.items():
            stated = plain.__dict__.get(name, MISSING)
            if isinstance(stated, Field):
                known[name] = stated
                if stated.default is MISSING:
                    delattr(plain, name)
                else:
                    setattr(plain, name, stated.default)
            else:
                known[name] = field(default=stated)
            known[name].name, known[name].type, known[name]._field_type = name, kind, _FIELD
        return known

    def _slotted(plain, known):
        """The class anew, since slots cannot be added to one that is there."""
        left_out = {*known, "__dict__", "__weakref__"}
        space = {name: value for name, value in plain.__dict__.items() if name not in left_out}
        made = type(plain)(plain.__name__, plain.__bases__, space | {"__slots__": tuple(known)})
        made.__qualname__ = plain.__qualname__
        return made

    FEW = 3  # values of a class, which are sooner filled in field by field than a method is compiled for them

    def _init_when_needed(made, slots):
        left = FEW

        def init(self, *values, **named):
            nonlocal left
            left -= 1
            if left < 0 or not _filled_in(self, made.__dataclass_fields__, values, named):
                made.__init__ = _init(made, slots)
                made.__init__(self, *values, **named)

        return init

    def _filled_in(self, known, values, named):
        """Whether the arguments fit, and have been assigned; what does not fit is left to what the compiler says."""
        given = dict(zip(known, values))  # noqa: B905 - too many are seen in the next line
        if len(values) > len(known) or not given.keys().isdisjoint(named) or not named.keys() <= known.keys():
            return False
        given.update(named)
        for name, one in known.items():
            if name in given:
                continue
            if one.default_factory is not MISSING:
                given[name] = one.default_factory()
            elif one.default is not MISSING:
                given[name] = one.default
            else:
                return False
        for name, value in given.items():
            object.__setattr__(self, name, value)
        if hasattr(self, "__post_init__"):
            self.__post_init__()
        return True

    def _init(made, slots):
        """Assigns each field past the lock that `__setattr__` is: through its slot, which is quickest, or object."""
        parameters, steps = ["self"], []
        known = {"_set": object.__setattr__, "_missing": MISSING}
        for one in made.__dataclass_fields__.values():
            name, value = one.name, one.name
            if one.default_factory is not MISSING:
                known[f"_make_{name}"] = one.default_factory
                parameters.append(f"{name}=_missing")
                value = f"_make_{name}() if {name} is _missing else {name}"
            elif one.default is not MISSING:
                known[f"_default_{name}"] = one.default
                parameters.append(f"{name}=_default_{name}")
            else:
                parameters.append(name)
            if slots:
                known[f"_set_{name}"] = made.__dict__[name].__set__
                steps.append(f"_set_{name}(self, {value})")
            else:
                steps.append(f"_set(self, {name!r}, {value})")
        if hasattr(made, "__post_init__"):
            steps.append("self.__post_init__()")
        exec(f"def __init__({', '.join(parameters)}):\n " + "\n ".join(steps or ["pass"]), known)
        init = known["__init__"]
        init.__qualname__, init.__module__ = f"{made.__qualname__}.__init__", made.__module__
        return init

    def _values(self):
        return tuple([getattr(self, name) for name in self.__dataclass_fields__])

    def _repr(self):
        shown = (f"{f.name}={getattr(self, f.name)!r}" for f in fields(self) if f.repr)
        return f"{type(self).__qualname__}({', '.join(shown)})"

    def _eq(self, other):
        return _values(self) == _values(other) if other.__class__ is self.__class__ else NotImplemented

    def _hash(self):
        return hash(_values(self))

    def _refuse_to_set(self, name, value):
        raise FrozenInstanceError(f"cannot assign to field {name!r}")

    def _refuse_to_delete(self, name):
        raise FrozenInstanceError(f"cannot delete field {name!r}")

    def _reduce(self):
        return type(self), _values(self)
