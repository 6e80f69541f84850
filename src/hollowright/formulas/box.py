"""A round lidded box from tube: how its height is shared out between tube and caps."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula


@formula(
    "lid_length",
    "mm",
    slips={
        "the cap's thickness forgotten": lambda height, share, cap: height * share,
        "the cap's thickness added": lambda height, share, cap: height * share + cap,
        "both caps' thickness taken off": lambda height, share, cap: height * share - 2 * cap,
        "the cap taken off before sharing": lambda height, share, cap: (height - cap) * share,
        "both caps taken off before sharing": lambda height, share, cap: (height - 2 * cap) * share,
    },
)
def lid_length(height: Any, share: Any, cap: Any) -> Any:
    """Tube for the lid [mm] when its cap sits on the tube's end.

    lid length = height x share - cap

    height: of the closed box [mm]; share: the lid's part of it [1]; cap: thickness of the cap [mm].
    Source: plane geometry.

    >>> round(lid_length(45.0, 0.3, 0.71), 2)
    12.79
    """
    return height * share - cap


@formula(
    "body_length",
    "mm",
    slips={
        "the cap's thickness forgotten": lambda height, share, cap: height * (1 - share),
        "the lid's share taken": lambda height, share, cap: height * share - cap,
        "both caps' thickness taken off": lambda height, share, cap: height * (1 - share) - 2 * cap,
        "the cap's thickness added": lambda height, share, cap: height * (1 - share) + cap,
        "the lid forgotten": lambda height, share, cap: height - cap,
    },
)
def body_length(height: Any, share: Any, cap: Any) -> Any:
    """Tube for the body [mm] when its cap sits on the tube's end.

    body length = height x (1 - share) - cap

    height: of the closed box [mm]; share: the lid's part of it [1]; cap: thickness of the cap [mm].
    Source: plane geometry.

    >>> round(body_length(45.0, 0.3, 0.71), 2)
    30.79
    """
    return height * (1 - share) - cap


@formula(
    "lid_length",
    "mm",
    slips={
        "the body's share taken": lambda height, share: height * (1 - share),
    },
)
def lid_length_let_in(height: Any, share: Any) -> Any:
    """Tube for the lid [mm] when its cap is let into the bore, flush with the end.

    lid length = height x share

    height: of the closed box [mm]; share: the lid's part of it [1].
    Source: plane geometry.

    >>> round(lid_length_let_in(45.0, 0.3), 2)
    13.5
    """
    return height * share


@formula(
    "body_length",
    "mm",
    slips={"the lid's share taken": lambda height, share: height * share},
)
def body_length_let_in(height: Any, share: Any) -> Any:
    """Tube for the body [mm] when its cap is let into the bore, flush with the end.

    body length = height x (1 - share)

    height: of the closed box [mm]; share: the lid's part of it [1].
    Source: plane geometry.

    >>> round(body_length_let_in(45.0, 0.3), 2)
    31.5
    """
    return height * (1 - share)


@formula("lid_depth", "mm")
def depth_on_end(length: Any) -> Any:
    """Inside depth [mm] of a tube whose cap sits on its end: the tube's own length.

    depth = length

    length: of the tube piece [mm].
    Source: plane geometry.

    >>> depth_on_end(12.79)
    12.79
    """
    return length


@formula(
    "lid_depth",
    "mm",
    slips={
        "the cap's thickness forgotten": lambda length, cap: length,
        "the cap's thickness added": lambda length, cap: length + cap,
    },
)
def depth_let_in(length: Any, cap: Any) -> Any:
    """Inside depth [mm] of a tube whose cap is let into its bore.

    depth = length - cap

    length: of the tube piece [mm]; cap: thickness of the cap [mm].
    Source: plane geometry.

    >>> round(depth_let_in(13.5, 0.71), 2)
    12.79
    """
    return length - cap


@formula("lid_length", "mm")
def length_for_depth(depth: Any, cap: Any) -> Any:
    """Length of a tube piece [mm] whose cap is let in and whose inside came out this deep.

    length = depth + cap

    depth: inside depth [mm]; cap: thickness of the cap [mm].
    Source: plane geometry.

    >>> round(length_for_depth(12.79, 0.71), 2)
    13.5
    """
    return depth + cap


@formula("cap_diameter", "mm")
def cap_on_end(outside: Any) -> Any:
    """Diameter of a cap [mm] that sits on the tube's end, when trimmed: the tube's outside.

    cap diameter = outside

    outside: outside diameter of the tube [mm].
    Source: plane geometry.

    >>> cap_on_end(38.05)
    38.05
    """
    return outside


@formula(
    "cap_diameter",
    "mm",
    slips={
        "the gap forgotten": lambda bore, gap: bore,
        "the gap added instead of taken off": lambda bore, gap: bore + gap,
    },
)
def cap_let_in(bore: Any, gap: Any) -> Any:
    """Diameter of a cap [mm] that is let into the bore with a diametral gap for the solder.

    cap diameter = bore - gap

    bore [mm]; gap: diametral gap for the solder [mm].
    Source: Machinery's Handbook 31st ed. Table 1a for the gap (0.05 to 0.13 mm a joint).

    >>> round(cap_let_in(36.03, 0.1), 2)
    35.93
    """
    return bore - gap
