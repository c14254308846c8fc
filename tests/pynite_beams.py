"""The same beam in another program: a general frame program, used as a yardstick and sharing nothing with ours."""

from Pynite import FEModel3D


def pynite_reactions(length, uniform, points, positions, stiffness, compliance, settlement):
    """Reactions of a beam on jacks [kN], by direct stiffness; a load never makes a node, only a jack does."""
    model = FEModel3D()
    model.add_material("steel", 1.0, 1.0, 0.3, 0.0)
    model.add_section("beam", 1e3, stiffness, stiffness, 1e3)
    nodes = sorted({0.0, length, *positions})
    for order, at in enumerate(nodes):
        model.add_node(f"N{order}", at, 0.0, 0.0)
        model.def_support(f"N{order}", order == 0, False, True, True, False, False)
    model.add_member("beam", "N0", f"N{len(nodes) - 1}", "steel", "beam")
    for at, yields, down in zip(positions, compliance, settlement, strict=True):
        name = f"N{nodes.index(at)}"
        if yields:
            model.def_support_spring(name, "DY", 1 / yields)
            # A spring whose base has gone down pulls with what it would take to follow.
            model.add_node_load(name, "FY", -down / yields)
        else:
            model.nodes[name].support_DY = True
            if down:
                model.def_node_disp(name, "DY", -down)
    for start, end, load in uniform:
        model.add_member_dist_load("beam", "FY", -load, -load, start, end)
    for at, load in points:
        model.add_member_pt_load("beam", "FY", -load, at)
    model.analyze_linear(check_statics=False)
    found = []
    for at, yields, down in zip(positions, compliance, settlement, strict=True):
        node = model.nodes[f"N{nodes.index(at)}"]
        found.append((-node.DY["Combo 1"] - down) / yields if yields else node.RxnFY["Combo 1"])
    return found
