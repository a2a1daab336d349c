"""Work out the standings of the sample meets by hand, so to speak.

    python3 sample-meets/expected.py

reads new.txt, roster.csv and acts.csv of each sample and writes, beside them,
expected-standings.csv (what the standings must be, cell for cell) and
expected-working.txt (how each place came about). It needs nothing but Python 3.

It is a second opinion on the program: a plain reading of the acts in the order
of their rows. It knows no queue, no clock and no deadline; an act that the
program would refuse is believed here.

Sources. Places in weightlifting: Technical and Competition Rules & Regulations
of the International Weightlifting Federation, article 6.8.2, as quoted by a
published page on placement without bodyweight. Categories: the federation's
set from 1 August 2026 (the four classes that aren't Olympic, 60 and 70 for
men, 49 and 57 for women, and the inclusive class edge: from memory). Shared
places on a max day: common practice.
"""

import csv
import shlex
from decimal import Decimal
from pathlib import Path

HERE = Path(__file__).resolve().parent
CLASSES = {
    "F": ["49", "53", "57", "61", "69", "77", "86", "86+"],
    "M": ["60", "65", "70", "75", "85", "95", "110", "110+"],
}
FOREVER = Decimal("Infinity")


# ---- Reading ---------------------------------------------------------------

def table(path):
    """The rows of a file as dictionaries, header words in lower case."""
    with open(path, encoding="utf-8-sig", newline="") as file:
        rows = list(csv.reader(file))
    head = [word.strip().lower() for word in rows[0]]
    return [dict(zip(head, (cell.strip() for cell in row))) for row in rows[1:]]


def arguments(path):
    """What the day is made with: {'format': 'max-day', ...}."""
    words = shlex.split(path.read_text(encoding="utf-8"))
    return {words[i][2:]: words[i + 1] for i in range(0, len(words), 2)}


def programme(args):
    """The slots in order, each with its variants, the default first."""
    if "lifts" in args:
        parts = (part.partition("=") for part in args["lifts"].split(","))
        return {slot: (lifts or slot).split("+") for slot, _, lifts in parts}
    return {"snatch": ["snatch"], "clean-and-jerk": ["clean-and-jerk"]}


def first_of(row, *words):
    """The cell under whichever of these header words the roster uses."""
    return next((row[word] for word in words if word in row), "")


def entries(roster, slots):
    """Everybody on the roster, by lot."""
    found = {}
    for row in roster:
        given, family = first_of(row, "first name"), first_of(row, "last name")
        if "name" in row:
            family, _, given = (part.strip() for part in row["name"].partition(","))
        athlete = {
            "lot": int(row["lot"]),
            "id": first_of(row, "student id", "id"),
            "name": f"{given} {family}",
            "sex": first_of(row, "gender", "sex"),
            "grade": first_of(row, "gr", "grade"),
            "division": first_of(row, "division"),
            "team": first_of(row, "team"),
            "session": first_of(row, "period", "session"),
            "bodyweight": number(first_of(row, "bodyweight")),
            "lift": {}, "asked": {}, "tried": {slot: {} for slot in slots},
        }
        for slot, variants in slots.items():
            filled = [lift for lift in variants if row.get(lift, "") not in ("", "-")]
            if filled:
                athlete["lift"][slot] = filled[0]
                athlete["asked"][slot, 1] = number(row[filled[0]])
            elif "-" not in [row.get(lift, "") for lift in variants]:
                athlete["lift"][slot] = variants[0]
        found[athlete["lot"]] = athlete
    return found


def number(text):
    return Decimal(text) if text else None


def plain(value):
    """A number without an exponent or trailing zeros; nothing for nothing."""
    if value is None:
        return ""
    text = f"{value:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


# ---- What stands -----------------------------------------------------------

def standing(acts):
    """The acts left after undo, redo and annul, and a line on each of those."""
    said, undone, annulled, lines = [], {}, set(), []
    for line, act in enumerate(acts, start=2):
        act["line"] = line
        act["whole"] = act.get("id", "").partition("/")[0] or f"line {line}"
        where = act.get("platform", "")
        if act["act"] == "undo":
            last = next(a for a in reversed(said)
                        if a.get("platform") == where and a["whole"] not in annulled)
            annulled.add(last["whole"])
            undone.setdefault(where, []).append(last["whole"])
            lines.append(f"Line {line} undoes line {last['line']} ({words(last)}).")
        elif act["act"] == "redo":
            back = undone[where].pop()
            annulled.discard(back)
            lines.append(f"Line {line} does {back} again.")
        elif act["act"] == "annul":
            name = act["detail"].partition(";")[0].strip()
            annulled.add(name)
            lines.append(f"Line {line} annuls {name}.")
        else:
            said.append(act)
            if where:
                undone.pop(where, None)
    return [act for act in said if act["whole"] not in annulled], lines


def words(act):
    keys = ("act", "athlete", "lift", "attempt", "load", "detail")
    return " ".join(act[key] for key in keys if act.get(key))


def keys(detail):
    return dict((part.strip() for part in item.split("=", 1)) for item in detail.split(";"))


def ruled(detail):
    """A ruling in words or lights as one word: wwr:press-out is good."""
    word = detail.partition(":")[0].strip().lower()
    if word in ("good", "no", "pass", "time"):
        return word
    judges = [part.strip()[0] for part in detail.lower().split(",")]
    if len(judges) == 1:
        judges = list(word)
    return "good" if judges.count("w") * 2 > len(judges) else "no"


# ---- Telling the day over again --------------------------------------------

def tell(athletes, slots, acts):
    """Fill in what everybody lifted; give back a line on each unusual act."""
    slot_of = {lift: slot for slot, lifts in slots.items() for lift in lifts}
    slot_of.update({slot: slot for slot in slots})
    running, called, lines = {}, {}, []
    for act in acts:
        what, where, detail = act["act"], act.get("platform", ""), act.get("detail", "")
        if what == "start":
            running[where] = slot_of[act["lift"]]
        if what == "lights" and not act["athlete"]:
            athlete = called[where]
        elif act["athlete"]:
            athlete = athletes[int(act["athlete"])]
        else:
            continue
        slot = slot_of.get(act["lift"]) or running.get(where)
        tried = athlete["tried"].get(slot, {})
        turn = int(act["attempt"]) if act["attempt"] else len(tried) + 1
        load, asked = number(act["load"]), athlete["asked"]
        who = f"Line {act['line']}: lot {athlete['lot']}, {slot} {turn}"
        if what == "call":
            called[where] = athlete
            asked[slot, turn] = load
        elif what == "request":
            if load is None:
                load = tried[turn - 1][0] + Decimal(detail)
            asked[slot, turn] = load
        elif what in ("lights", "tally"):
            load = asked.get((slot, turn)) if load is None else load
            tried[turn] = [load, ruled(detail)]
        elif what == "pass":
            last = 3 if detail == "rest" else turn
            tried.update({n: [None, "pass"] for n in range(turn, last + 1)})
        elif what == "stop":
            tried[turn] = [asked[slot, turn], "stopped"]
            lines.append(f"{who} is stopped: {detail}.")
        elif what == "loaded":
            assert detail == "keep", detail
            lines.append(f"{who}: {plain(tried[turn][0])} was called, {plain(load)} was "
                         f"on the bar, and {plain(load)} counts.")
            tried[turn][0] = load
        elif what == "correct":
            before = list(tried[turn])
            tried[turn] = [before[0] if load is None else load,
                           ruled(detail) if detail else before[1]]
            lines.append(f"{who}: {plain(before[0])} {before[1]} becomes "
                         f"{plain(tried[turn][0])} {tried[turn][1]}.")
        elif what == "extra":
            lines.append(f"Line {act['line']}: lot {athlete['lot']} gets one more attempt "
                         f"in {slot}: {detail}.")
        elif what == "weigh":
            athlete["bodyweight"] = load
        elif what == "place":
            athlete["session"] = keys(detail).get("session", athlete["session"])
            lines.append(f"Line {act['line']}: lot {athlete['lot']} moves: {detail}.")
        elif what == "withdraw":
            lines.append(f"Line {act['line']}: lot {athlete['lot']} withdraws from "
                         f"{slot}: {detail}.")
    return lines


def sums(athletes, slots):
    """Bests, the attempt of each best, and totals."""
    for athlete in athletes:
        athlete["best"], athlete["best at"], athlete["place"] = {}, {}, {}
        for slot, tried in athlete["tried"].items():
            good = [(load, -turn) for turn, (load, ruling) in tried.items() if ruling == "good"]
            if good:
                load, turn = max(good)
                athlete["best"][slot], athlete["best at"][slot] = load, -turn
        whole = all(slot in athlete["best"] for slot in slots)
        athlete["total"] = sum(athlete["best"].values()) if whole else None


# ---- Places on a max day: the same variant, ties shared --------------------

def shared(athletes, value, mark, lines, what):
    """Places 1, 2, 2, 4 by falling value."""
    ranked = sorted((a for a in athletes if value(a) is not None),
                    key=lambda a: (-value(a), a["lot"]))
    lines.append(f"{what}: {len(ranked)} placed.")
    for athlete in ranked:
        place = 1 + sum(value(other) > value(athlete) for other in ranked)
        mark(athlete, place)
    for amount in sorted({value(a) for a in ranked}, reverse=True):
        level = [a for a in ranked if value(a) == amount]
        if len(level) > 1:
            place = 1 + sum(value(other) > amount for other in ranked)
            lots = ", ".join(str(a["lot"]) for a in level)
            lines.append(f"  {plain(amount)}: lots {lots} share place {place}; "
                         f"the next place is {place + len(level)}.")


def max_day(athletes, slots, lines):
    for athlete in athletes:
        athlete["group"], athlete["category"] = "all", ""
        athlete["own"] = tuple(lift for slot, lift in athlete["lift"].items()
                               if lift != slots[slot][0])
    for slot, variants in slots.items():
        for lift in variants:
            own = [a for a in athletes if a["lift"].get(slot) == lift]
            shared(own, lambda a: a["best"].get(slot),
                   lambda a, place: a["place"].update({slot: place}), lines, f"{lift} in {slot}")
    ordered = []
    for own in sorted({a["own"] for a in athletes}):
        same = [a for a in athletes if a["own"] == own]
        name = "with " + ", ".join(own) if own else "with the default variants"
        shared(same, lambda a: a["total"], lambda a, place: a["place"].update(total=place),
               lines, f"Total {name} (a ranking of its own)")
        ordered += sorted(same, key=lambda a: (a["place"].get("total", FOREVER), a["lot"]))
    return ordered


# ---- Places in weightlifting: a chain of keys ------------------------------

def history(athlete, slot):
    """Attempt number of the best, then the attempts before it, walking back."""
    turn = athlete["best at"][slot]
    steps = [("attempt number of the best " + slot, turn)]
    for n in range(turn - 1, 0, -1):
        steps.append((f"{slot} {n}, an attempt before it", athlete["tried"][slot][n][0]))
    return steps


def lift_keys(athlete, slot):
    best = ("best " + slot, -athlete["best"][slot])
    return [best, *history(athlete, slot), ("lot", athlete["lot"])]


def total_keys(athlete):
    last = "clean-and-jerk"
    return [("total", -athlete["total"]), ("best " + last + ", lower", athlete["best"][last]),
            *history(athlete, last), ("lot", athlete["lot"])]


def chain(athletes, chosen, mark, lines, what):
    ranked = sorted(athletes, key=lambda a: [value for _, value in chosen(a)])
    for place, athlete in enumerate(ranked, start=1):
        mark(athlete, place)
    for place, (upper, lower) in enumerate(zip(ranked, ranked[1:]), start=1):
        pairs = list(zip(chosen(upper), chosen(lower)))
        step = next(i for i, (a, b) in enumerate(pairs) if a[1] != b[1])
        if step:
            lines.append(f"{what}: lots {upper['lot']} and {lower['lot']} both have "
                         f"{plain(-pairs[0][0][1])}.")
            lines += [f"  {a[0]}: {plain(a[1])} and {plain(b[1])}, equal."
                      for a, b in pairs[1:step]]
            a, b = pairs[step]
            lines.append(f"  {a[0]}: {plain(a[1])} before {plain(b[1])}, so lot "
                         f"{upper['lot']} is place {place} and lot {lower['lot']} "
                         f"place {place + 1}.")


def weightlifting(athletes, slots, lines):
    for athlete in athletes:
        labels = CLASSES[athlete["sex"]]
        athlete["category"] = next((label for label in labels[:-1]
                                    if athlete["bodyweight"] <= Decimal(label)), labels[-1])
        athlete["group"] = f"{athlete['sex']} {athlete['category']}"
    ordered = []
    for group in [f"{sex} {label}" for sex in "FM" for label in CLASSES[sex]]:
        own = [a for a in athletes if a["group"] == group]
        for slot in slots:
            chain([a for a in own if slot in a["best"]], lambda a: lift_keys(a, slot),
                  lambda a, place: a["place"].update({slot: place}), lines, f"{group}, {slot}")
        chain([a for a in own if a["total"] is not None], total_keys,
              lambda a, place: a["place"].update(total=place), lines, f"{group}, total")
        for athlete in own:
            if athlete["total"] is None:
                lift = ", ".join(f"{slot} place {athlete['place'][slot]}"
                                 for slot in slots if slot in athlete["best"])
                lines.append(f"{group}: lot {athlete['lot']} has no total, and keeps {lift}.")
        ordered += sorted(own, key=lambda a: (a["place"].get("total", FOREVER), a["lot"]))
    return ordered


# ---- Writing ---------------------------------------------------------------

def standings(path, athletes, slots, unit):
    most = {slot: max([3, *(n for a in athletes for n in a["tried"][slot])]) for slot in slots}
    head = ("group place lot id name sex grade category division team session "
            "bodyweight").split() + ["scale unit", "bar unit"]
    for slot in slots:
        head.append(f"{slot} lift")
        for n in range(1, most[slot] + 1):
            head += [f"{slot} {n}", f"{slot} {n} ruling"]
        head += [f"{slot} best", f"{slot} place"]
    with open(path, "w", encoding="utf-8", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(head + ["total"])
        for a in athletes:
            row = [a["group"], a["place"].get("total", ""), a["lot"], a["id"], a["name"],
                   a["sex"], a["grade"], a["category"], a["division"], a["team"],
                   a["session"], plain(a["bodyweight"]), unit, unit]
            for slot in slots:
                row.append(a["lift"].get(slot, ""))
                for n in range(1, most[slot] + 1):
                    load, ruling = a["tried"][slot].get(n, (None, ""))
                    row += [plain(load), ruling]
                row += [plain(a["best"].get(slot)), a["place"].get(slot, "")]
            out.writerow(row + [plain(a["total"])])


def work_out(folder):
    args = arguments(folder / "new.txt")
    slots = programme(args)
    athletes = entries(table(folder / "roster.csv"), slots)
    acts, taken_back = standing(table(folder / "acts.csv"))
    unusual = tell(athletes, slots, acts)
    everybody = list(athletes.values())
    sums(everybody, slots)
    places = []
    rank = max_day if args["format"] == "max-day" else weightlifting
    ordered = rank(everybody, slots, places)
    standings(folder / "expected-standings.csv", ordered, slots, args["unit"])
    text = [args["name"] + ", " + args["date"] + ", loads in " + args["unit"], ""]
    text += ["Taken back", *taken_back, "", "Out of the ordinary", *unusual, "",
             "Places and ties", *places]
    (folder / "expected-working.txt").write_text("\n".join(text) + "\n", encoding="utf-8",
                                                 newline="\n")


if __name__ == "__main__":
    for new in sorted(HERE.glob("*/new.txt")):
        work_out(new.parent)
