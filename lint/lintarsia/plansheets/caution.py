"""The caution that stands wherever plan sheets speak of floats for small wearers."""

CAUTION = (  # case reports of thread tourniquet in infants; rules/shared/citing.py names them
    "Small fingers and toes catch in floats: line the piece or keep them short, and follow the rules that hold where "
    "you sell."
)
