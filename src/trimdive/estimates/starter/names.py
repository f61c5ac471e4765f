"""What a first boat's regions and vessels are called; its parts are named in ``starter.csv``."""

HULL, LOWER, UPPER, TOWER = "hull", "lower hull", "upper hull", "tower"
COAT = "filler, primer, paint"
CYLINDERS = ("cylinder", "after cylinder", "forward cylinder")
TANKS, ROOM = ("tank", "after tank", "forward tank"), "tank room"
SKINS = (LOWER, UPPER, HULL)  # regions that girths lie over
TAKEN = (*SKINS, COAT, *CYLINDERS, *TANKS, ROOM)
