"""Goes through the sheet with the commands of Kakoune and kak-lsp and tells what is seen."""

import json
import os
import re
import subprocess
import sys
import threading
import time
from pathlib import Path

SHEET = Path(os.environ["BICINIUM_SHEET"])
HOME = Path(os.environ["HOME"])
SESSION = f"sheet{os.getpid()}"
FINDING = "Fifths in a row"
CONFIG = f"""
evaluate-commands %sh{{ kak-lsp }}
source "{os.environ['BICINIUM_EDITORS']}/kakoune/bicinium.kak"
lsp-enable
hook global WinSetOption filetype=bicinium %{{
    lsp-inlay-hints-enable window
    hook window NormalIdle .* lsp-semantic-tokens
}}
"""
story = {"more": {}}
shows = {"lines": [], "menu": []}


def start():
    folder = Path(os.environ["XDG_CONFIG_HOME"]) / "kak"
    folder.mkdir(parents=True)
    (folder / "kakrc").write_text(CONFIG)
    command = ["kak", "-ui", "json", "-s", SESSION, str(SHEET)]
    program = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    threading.Thread(target=look, args=[program.stdout], daemon=True).start()
    return program


def look(messages):
    """Keeps what is on the screen, and what the menu offers."""
    for message in map(json.loads, messages):
        if message["method"] == "draw":
            shows["lines"] = message["params"][0]
        elif message["method"] == "menu_show":
            shows["menu"] = ["".join(part["contents"] for part in item) for item in message["params"][0]]


def screen(method, *params):
    """Does what a screen and a keyboard do."""
    message = {"jsonrpc": "2.0", "method": method, "params": params}
    kakoune.stdin.write(json.dumps(message) + "\n")
    kakoune.stdin.flush()


def say(commands):
    subprocess.run(["kak", "-p", SESSION], input=commands, text=True, check=True, timeout=60)


def do(command):
    say(f"evaluate-commands -client client0 %{{ {command} }}")


def content(buffer):
    """The text of a buffer; nothing if there is none of this name."""
    return written(f"evaluate-commands -buffer '{buffer}'")


def written(where):
    """What the command `write` writes there."""
    copy = HOME / "copy"
    copy.unlink(missing_ok=True)
    say(f"try %{{ {where} %{{ write -force '{copy}' }} }}")
    time.sleep(0.2)
    return copy.read_text() if copy.exists() else ""


def settled(buffer):
    """The text of a buffer that comes bit by bit, once nothing is added any more."""
    text = content(buffer)
    return text if text.strip() and text == content(buffer) else ""


def wait(what, read):
    for _ in range(60):
        value = read()
        if value:
            return value
        time.sleep(0.2)
    raise TimeoutError(f"waited in vain for {what}")


def findings():
    """The list of findings: each begins with its place, further paragraphs and places follow."""
    do("try %{ delete-buffer *diagnostics* }")
    do("lsp-diagnostics")
    form = re.compile(r"^\S*mill\.bicinium:(\d+):(\d+): \[(?:error|warning|info|hint)\](?:\[[^]]*\])* (.*)$", re.M)
    found = form.findall(wait("the list of findings", lambda: settled("*diagnostics*")))
    do(f"edit '{SHEET}'")
    return [(int(line) - 1, int(column), message.replace("␊", "\n")) for line, column, message in found]


def shown(found):
    return [{"line": line, "message": message} for line, _, message in found]


def the_finding(found):
    return next((it for it in found if it[2].startswith(FINDING)), None)


def hover(line, column):
    before = SHEET.read_bytes().split(b"\n")[line][: column - 1].decode()
    story["hovered"] = [line, len(before)]
    do(f"select {line + 1}.{column},{line + 1}.{column}")
    do("lsp-hover-buffer")
    text = wait("the hover", lambda: settled("*hover*"))
    do(f"edit '{SHEET}'")
    return text


def parts():
    """What is on the screen, part by part, each with its look."""
    return [(part["contents"].strip(), json.dumps(part["face"])) for line in shows["lines"] for part in line]


def look_of(text, row=""):
    """How a word looks in the first line with this in it."""
    for line in shows["lines"]:
        if row in "".join(part["contents"] for part in line):
            for part in line:
                if text in part["contents"]:
                    return json.dumps(part["face"])
    return ""


def states():
    """The lenses of the last exercise, from which one may choose."""
    line = next(n for n, line in enumerate(content(str(SHEET)).split("\n"), 1) if "No. 2" in line)
    do(f"select {line}.1,{line}.1")
    shows["menu"] = []
    do("lsp-code-lens")
    menu = wait("the states", lambda: shows["menu"])
    screen("keys", "<esc>")
    return menu


def outline():
    do("lsp-document-symbol")
    text = wait("the outline", lambda: settled("*goto*"))
    do(f"edit '{SHEET}'")
    return re.findall(r":\d+:\d+:\s+(?:[│├└─]+ )?(.*) \([A-Z][a-z]+\)$", text, re.M)


def definition():
    line = next(n for n, line in enumerate(content(str(SHEET)).split("\n"), 1) if "soprano cantus mill-song" in line)
    do(f"select {line}.18,{line}.18")
    do("lsp-definition")
    where = HOME / "line"
    time.sleep(1)
    do(f"echo -to-file '{where}' %val{{cursor_line}}")
    line = wait("the definition", lambda: where.exists() and where.read_text())
    return content(str(SHEET)).split("\n")[int(line) - 1]


def more():
    seen = story["more"]
    # Kakoune asks again once it is idle after a key.
    screen("keys", "g", "g")
    time.sleep(1)
    seen["hints"] = wait("the hints", lambda: any(text == "8" for text, _ in parts()) and [text for text, _ in parts()])
    seen["tokens"] = wait("the tokens", lambda: (looks := {"given": look_of("F4", "soprano"), "written": look_of("F3", "bass")})["given"] != looks["written"] and looks)
    seen["colours"] = {
        "keyword": look_of("soprano"),
        "pitch": look_of("G4", "line"),
        "comment": look_of("Windmill"),
    }
    seen["states"] = states()
    seen["outline"] = outline()
    seen["definitions"] = definition()


def changed(what, before):
    return wait(what, lambda: (now := content(str(SHEET))) != before and now)


def mend():
    """Takes the first of the choices in the menu that write another note."""
    before = content(str(SHEET))
    do("lsp-code-actions quickfix")
    time.sleep(2)
    screen("keys", *"Write")
    time.sleep(1)
    screen("keys", "<tab>", "<ret>")
    return changed("the fix", before)


def lay_out(before):
    do("lsp-formatting-sync")
    return changed("the layout", before)


def go_through():
    version = subprocess.run(["kak-lsp", "--version"], capture_output=True, text=True, check=True)
    story["editor"] = f"Kakoune with kak-lsp {version.stdout.strip()}"
    found = wait("the findings", lambda: (now := findings()) and the_finding(now) and now)
    story["findings"] = shown(found)
    line, column, _ = the_finding(found)
    story["hover"] = hover(line, column)
    do(f"select {line + 1}.{column},{line + 1}.{column}")
    story["fixed"] = mend()
    story["formatted"] = lay_out(story["fixed"])
    wait("the end of the finding", lambda: (now := findings()) and not the_finding(now))
    time.sleep(1)
    story["left"] = shown(findings())
    more()


kakoune = start()
code = 0
try:
    screen("resize", 40, 120)
    time.sleep(1)
    go_through()
except Exception as why:  # What went wrong is part of the story.
    story["why"] = repr(why)
    code = 1
finally:
    Path(os.environ["BICINIUM_STORY"]).write_text(json.dumps(story))
    say("kill!")
    kakoune.wait(30)
sys.exit(code)
