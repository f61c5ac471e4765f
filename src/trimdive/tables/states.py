"""The figures of a state by the keys that JSON and tables give them."""

from trimdive.hydrostatics.equilibrium import State

FIGURES = {  # by key: the name of the figure in a state
    "trim_bow_down_rad": "trim_angle",
    "heel_starboard_rad": "heel",
    "displacement_kg": "displacement_mass",
    "displacement_m3": "nabla",
    "out_of_water_m3": "reserve",
    "buoyancy_x_m": "lcb",
    "buoyancy_z_m": "kb",
    "gravity_x_m": "lcg",
    "gravity_y_m": "tcg",
    "gravity_z_m": "kg",
    "bg_m": "bg",
    "gm_t_m": "gm_t",
    "gm_l_m": "gm_l",
    "bm_t_m": "bm_t",
    "bm_l_m": "bm_l",
    "free_surface_t_m": "free_surface_t",
    "free_surface_l_m": "free_surface_l",
    "waterplane_m2": "waterplane_area",
    "flotation_x_m": "lcf",
    "sink_1_mm_kg": "mass_to_sink_1_mm",
    "trim_1_mm_kg_m": "moment_to_trim_1_mm",
    "trim_1_degree_kg_m": "moment_to_trim_1_degree",
}


def figures(state: State) -> dict[str, float]:
    """Return the figures of a state by their keys [SI, by the keys]."""
    return {key: getattr(state, name) for key, name in FIGURES.items()}
