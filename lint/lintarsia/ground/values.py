"""Frozen dataclasses that cost a quarter of the usual to define.

The standard decorator writes and compiles six methods for every class, 0.8 ms of work. A cold check defines about 70
classes, which made that a fifth of its whole run. Here only `__init__` is compiled, and that when the first value of a
class is made: half of them are never needed in a cold check. The other methods are shared by all classes and look the
fields up. To type checkers, `dataclasses.fields` and `dataclasses.replace` nothing is different.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:
    from dataclasses import MISSING, FrozenInstanceError, fields
    from dataclasses import dataclass as _standard

    def dataclass(*, frozen, slots=False, eq=True):
        """`dataclasses.dataclass` for frozen classes that inherit no fields and define none of these but `__repr__`."""
        if not frozen:
            raise TypeError("these dataclasses are frozen")

        def decorate(plain):
            # Without a docstring the standard decorator would make one from the signature, which takes as long again.
            plain.__doc__ = plain.__doc__ or plain.__name__
            made = _standard(init=False, repr=False, eq=False, slots=slots)(plain)
            made.__dataclass_params__.frozen = True
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

    def _init_when_needed(made, slots):
        def init(self, *values, **named):
            made.__init__ = _init(made, slots)
            made.__init__(self, *values, **named)

        return init

    def _init(made, slots):
        """Assigns each field past the lock that `__setattr__` is: through its slot, which is quickest, or object."""
        parameters, steps = ["self"], []
        known = {"_set": object.__setattr__, "_missing": MISSING}
        for field in fields(made):
            name, value = field.name, field.name
            if field.default_factory is not MISSING:
                known[f"_make_{name}"] = field.default_factory
                parameters.append(f"{name}=_missing")
                value = f"_make_{name}() if {name} is _missing else {name}"
            elif field.default is not MISSING:
                known[f"_default_{name}"] = field.default
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
