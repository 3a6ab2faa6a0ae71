"""Which uprights of a wall stand in each other's place."""

from setday.house import House, MemberKind

LYING = {MemberKind.HEADER, MemberKind.SILL, MemberKind.TOP_PLATE, MemberKind.BOTTOM_PLATE}


def in_each_other(house_: House) -> list[tuple[str, str, str]]:
    """Return the pairs of uprights of one wall that stand in each other's place."""
    found = []
    for each in house_.walls:
        upright = [m for m in each.members if m.kind not in LYING]
        for n, a in enumerate(upright):
            for b in upright[n + 1 :]:
                beside = a.right <= b.left or b.right <= a.left
                over = max(a.top_left, a.top_right) <= b.bottom or max(b.top_left, b.top_right) <= a.bottom
                if not beside and not over:
                    found.append((each.name, f"{a.kind} {a.center}", f"{b.kind} {b.center}"))
    return found
