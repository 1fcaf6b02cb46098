#!/usr/bin/env python3
"""A screen reader's way through the main job, over the accessibility bus of the desktop.

Sees the window only as a screen reader does: by role, name, description and action; types with a keyboard,
since a field has no action on this bus. Begins at a first start, ends at a card that is saved and a source
that is found, with a wrong entry on the way. On each page that it meets, everything has a role, what can be
done has a name, a picture has words, and nothing is heard twice. `bus.sh` starts it.
"""
import re
import subprocess
import sys
import time

import gi

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi  # noqa: E402

DONE = 0
# How long a busy machine may take to show what was asked for, in seconds.
WAIT = 30.0
# Whatever was met that has no role.
NO_ROLE = set()
# The chart of the heat cycle, by its name.
CHART = "From the first heat to 50\u00a0°C"
# Roles that do something when their action is asked for.
ACTS = {"push button", "radio button", "page tab", "toggle button", "check box", "list item", "combo box"}


def program():
    desktop = Atspi.get_desktop(0)
    desktop.clear_cache()
    for nth in range(desktop.get_child_count()):
        found = desktop.get_child_at_index(nth)
        if found and "strawblue" in found.get_name():
            return found
    return None


def walk(node):
    yield node
    for nth in range(node.get_child_count()):
        child = node.get_child_at_index(nth)
        if child:
            yield from walk(child)


def nodes():
    """What is there now: role, name, description, node. Anew if it changes while it is read."""
    for _ in range(20):
        try:
            read = [
                (node.get_role_name(), node.get_name() or "", node.get_description() or "", node)
                for node in walk(program())
            ]
        except Exception:  # a node that has gone while it was read
            time.sleep(0.1)
            continue
        NO_ROLE.update(name for role, name, *_ in read if role == "unknown")
        return read
    fail("the tree does not come to rest")


def fail(why):
    print(f"FAILED: {why}")
    for role, name, description, _ in nodes():
        print(f"    {role}: {name!r} {description!r}")
    sys.exit(1)


def ok(what):
    global DONE
    DONE += 1
    print(f"ok: {what}")


def find(role, name, part=False, wait=WAIT):
    end = time.time() + wait
    while time.time() < end:
        for found, said, _, node in nodes():
            if found == role and (said == name or (part and name in said)):
                return node
        time.sleep(0.1)
    fail(f"no {role} {name!r}")


def still(reached, act):
    """Acts on what is reached; what has gone in the meantime is reached again."""
    for _ in range(10):
        try:
            return act(reached())
        except Exception:
            time.sleep(0.2)
    return act(reached())


def press(role, name, part=False):
    if not still(lambda: find(role, name, part), lambda node: Atspi.Action.do_action(node, 0)):
        fail(f"{role} {name!r} does nothing")
    time.sleep(0.3)


def heard(text, wait=WAIT):
    """A name or description that holds the text; the whole of it."""
    end = time.time() + wait
    while time.time() < end:
        for _, name, description, _ in nodes():
            for said in (name, description):
                if text in said:
                    return said
        time.sleep(0.1)
    fail(f"nothing says {text!r}")


def keys(*names):
    subprocess.run(["xdotool", "key", "--delay", "60", *names], check=True)
    time.sleep(0.3)


def typed(text):
    subprocess.run(["xdotool", "type", "--delay", "30", text], check=True)
    time.sleep(0.4)


def reach(role, name, part=False):
    """What is scrolled out of sight is not in the tree: Tab leads to it and brings it there."""
    for _ in range(150):
        for found, said, _, node in nodes():
            if found == role and (said == name or (part and said.startswith(name))):
                return node
        subprocess.run(["xdotool", "key", "Tab"], check=True)
        time.sleep(0.1)
    fail(f"Tab leads to no {role} {name!r}")


def go(role, name, part=False):
    """Reached, and pressed."""
    if not still(lambda: reach(role, name, part), lambda node: Atspi.Action.do_action(node, 0)):
        fail(f"{role} {name!r} does nothing")
    time.sleep(0.3)


def into(name, text):
    """Into the field of this name, which is found by its name, given the keyboard, and read again.

    A field has no action of its own on this bus: a reader types, as everybody does; and where a busy machine
    was late with the keyboard, types once more.
    """
    for _ in range(3):
        still(lambda: reach("entry", name), Atspi.Component.grab_focus)
        time.sleep(0.3)
        keys("ctrl+a")
        typed(text)
        end = time.time() + WAIT / 3
        while time.time() < end:
            if still(lambda: find("entry", name), lambda node: Atspi.Text.get_text(node, 0, -1)) == text:
                return
            time.sleep(0.1)
    fail(f"{name!r} holds {Atspi.Text.get_text(find('entry', name), 0, -1)!r} and not {text!r}")


def described(role, name, part=False):
    """The description of what has this name, which is told in words."""
    end = time.time() + 60
    while time.time() < end:
        for found, said, description, _ in nodes():
            if found == role and (said == name or (part and said.startswith(name))) and description:
                return description
        time.sleep(0.2)
    fail(f"{role} {name!r} is not described")


def at_rest():
    """What is there when two readings, one after another, find the same: a page that is still drawn is none yet."""
    end = time.time() + WAIT
    before = None
    while time.time() < end:
        now = nodes()
        said = [node[:3] for node in now]
        if said == before:
            return now
        before = said
        time.sleep(0.3)
    fail("the page does not come to rest")


def faults(everything):
    """What a reader would miss on a page, in words."""
    if NO_ROLE:
        yield f"{len(NO_ROLE)} without a role, here or before: {NO_ROLE}"
    mute = [role for role, name, _, _ in everything if role in ACTS | {"entry", "slider", "image"} and not name]
    if mute:
        yield f"without a name: {mute}"
    no_action = [
        name
        for role, name, _, node in everything
        # A step of a list may only be read.
        if role in ACTS - {"list item"} and "Action" not in node.get_interfaces()
    ]
    if no_action:
        yield f"nothing can be done with {no_action}"
    images = [(name, said) for role, name, said, _ in everything if role == "image"]
    pictures = [name for name, said in images if not said and not re.search(r"\d", name)]
    if pictures:
        yield f"pictures without words: {pictures}"
    twice = heard_twice()
    if twice:
        yield f"heard twice: {twice}"


def all_named(page):
    """The page has no fault. A busy machine tells of a node before its name: it is read anew until it has had time."""
    end = time.time() + WAIT
    while True:
        everything = at_rest()
        try:
            found = list(faults(everything))
        except Exception as gone:  # a node that has gone while it was read
            found = [str(gone)]
        if not found:
            break
        if time.time() > end:
            fail(f"{page}: {'; '.join(found)}")
        time.sleep(0.5)
    ok(f"{page}: {len(everything)} nodes, each with a role, none heard twice; what can be done has a name and does it")


def heard_twice():
    """A text within a control that says it too; a description that is the name again."""
    found = []

    def look(node, above):
        name, description = node.get_name() or "", node.get_description() or ""
        if name and description == name:
            found.append(name)
        if name and any(name in said for said in above):
            found.append(name)
        acts = node.get_role_name() in ACTS | {"entry", "slider", "image", "label"}
        for nth in range(node.get_child_count()):
            child = node.get_child_at_index(nth)
            if child:
                look(child, above + [name, description] if acts else above)

    for _ in range(20):
        found.clear()
        try:
            look(program(), [])
            return found
        except Exception:  # a node that has gone while it was read
            time.sleep(0.1)
    fail("the tree does not come to rest")


def first_minute():
    """Units are asked, who decides is said, and one's own job begins."""
    heard("the qualified procedure and licensed practice come first")
    all_named("Welcome")
    press("radio button", "°F, in")
    press("radio button", "°C, mm")
    press("push button", "Start your own job")


def plan():
    """Four entries to a preheat, and why."""
    all_named("Plan, empty")
    press("push button", "Choose the steel")
    find("entry", "Find a steel")
    typed("42CrMo4")
    all_named("List of steels")
    press("list item", "42CrMo4")
    press("push button", "Type the thickness")
    # A wrong entry is said, with what is accepted.
    into("Thickness", "38m/m")
    heard("is not a unit for this field")
    into("Thickness", "40 mm")
    press("push button", "Choose the joint")
    press("radio button", "Butt", part=True)
    press("push button", "Choose the process")
    press("radio button", "MAG", part=True)
    figure = find("push button", "Minimum preheat").get_description()
    if not re.match(r"(At least )?\d+[ \u00a0]°C", figure):
        fail(f"the minimum is heard as {figure!r}")
    why = heard("Governing method: ")
    ok(f"Minimum preheat: {figure!r}, because {why!r}")
    all_named("Plan")
    press("push button", "Minimum preheat")
    all_named("Basis of the minimum")
    keys("Escape")


def heat_cycle():
    """What is still wanted is typed, and the chart is told in words."""
    go("push button", "Heat cycle")
    into("Flow of fuel gas", "100 ft3/h")
    into("Width of the plate", "160 mm")
    into("Length of the plate or bar", "400 mm")
    keys("Home")
    chart = described("image", CHART)
    ok(f"Heat cycle: {chart!r}")
    all_named("Heat cycle")
    press("push button", "Back")


def log():
    """A job of the plan, a piece, a reading on the big keys."""
    go("push button", "Make a job of this plan")
    into("Name of the job", "Boss plate")
    into("Number of pieces", "1")
    go("push button", "Begin the job")
    go("push button", "Piece 1", part=True)
    all_named("Piece")
    go("push button", "Add a reading")
    for digit in "310":
        go("push button", digit)
    all_named("Reading")
    go("push button", "Save the reading")
    heard("310")
    ok("A reading is in the log")
    press("push button", "Back")


def card():
    """The card of the job is looked at and saved."""
    go("push button", "Boss plate")
    go("push button", "Job card")
    page = described("image", "Page 1", part=True)
    ok(f"Job card: {page!r}")
    all_named("Job card")
    go("push button", "Save as PDF")
    saved = heard(".pdf")
    ok(f"The card is saved: {saved!r}")
    press("push button", "Back")


def main():
    Atspi.init()
    end = time.time() + 30
    while program() is None or not any(role == "frame" for role, *_ in nodes()):
        if time.time() > end:
            fail("no window on the bus")
        time.sleep(0.2)
    window = subprocess.run(
        ["xdotool", "search", "--onlyvisible", "--name", "Strawblue"], capture_output=True, text=True, check=True
    )
    subprocess.run(["xdotool", "windowfocus", "--sync", window.stdout.split()[0]], check=True)

    first_minute()
    plan()
    heat_cycle()
    log()
    card()
    for place in ("Plan", "Tint", "Bench", "Log", "Safety", "Settings"):
        press("page tab", place)
        find("label", place)
        all_named(place)
    go("push button", "Sources")
    into("Find a source", "EN 1011-2")
    found = described("list item", "BS EN 1011-2", part=True)
    into("Find a source", "zebra")
    heard("No such source")
    ok(f"A source is found: {found!r}")
    print(f"{DONE} passed, 0 failed")


main()
