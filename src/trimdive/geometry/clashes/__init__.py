"""What shares room that cannot: solids against each other, in 3D, with the volume and a move."""
