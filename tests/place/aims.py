"""What is wished for in the tests of placing."""

# A pocket for foam in which none fits: with it no others are looked for.
NO_FOAM = """
[[pocket]]
name = "no foam"
holds = "foam"
x_aft = 500
x_fore = 501
breadth = 1
z_bottom = 100
z_top = 101
"""
