#!/usr/bin/env python3
"""Measures the terminal UI of a release binary against the figures to beat.

    cargo build --release -p rimwise
    python3 tests/peers/screen_figures.py [BINARY [CASE [SIZE [PICTURES [RUNS]]]]]

SIZE is 80x24 or another; PICTURES a kind of picture (quadrants, braille …), which is
painted in 24-bit colours. Needs Linux (/proc) and a calm machine, nothing else. Times begin before the
fork, so they hold the start of the process too; the first line of the table says
how much of them is the harness. Medians of RUNS starts, or of all keys of all runs.
"""

import fcntl
import os
import pty
import re
import select
import signal
import statistics
import struct
import sys
import termios
import time

RUNS = 15
COLUMNS, ROWS = 80, 24
KEYS = 6  # steps of each kind in a run
EDITS = 100
IDLE_SECONDS = 5
PATIENCE = 30.0
# Silence after which the program has said what it had to say.
QUIET = 0.25

RIGHT, LEFT, DOWN, UP = b"\x1b[C", b"\x1b[D", b"\x1b[B", b"\x1b[A"
FRAME_END = b"\x1b[?2026l"
SEQUENCE = re.compile(rb"\x1b\[([?0-9;]*)([A-Za-z])|\x1b[()][A-Z0-9]|\x1b[=>78]")


class Screen:
    """What stands on the screen after the few sequences the program writes."""

    def __init__(self):
        self.cells = [[" "] * COLUMNS for _ in range(ROWS)]
        self.row = self.column = 0
        self.rest = b""

    def take(self, data):
        data = self.rest + data
        at = 0
        while at < len(data):
            if data[at] == 0x1B:
                found = SEQUENCE.match(data, at)
                if not found:
                    break  # its end is still to come
                self.sequence(found[1] or b"", found[2])
                at = found.end()
            else:
                end = data.find(b"\x1b", at)
                end = len(data) if end < 0 else end
                try:
                    text = data[at:end].decode()
                except UnicodeDecodeError as error:
                    if end < len(data) or len(data) - at - error.start > 3:
                        raise
                    text, end = data[at:at + error.start].decode(), at + error.start
                    self.write(text)
                    at = end
                    break
                self.write(text)
                at = end
        self.rest = data[at:]

    def sequence(self, parameters, final):
        if final == b"H":
            numbers = [int(number or 1) for number in (parameters or b"1;1").split(b";")]
            self.row, self.column = numbers[0] - 1, numbers[-1] - 1
        elif final == b"J":
            self.cells = [[" "] * COLUMNS for _ in range(ROWS)]

    def write(self, text):
        for letter in text:
            if self.row < ROWS and self.column < COLUMNS and letter.isprintable():
                self.cells[self.row][self.column] = letter
                self.column += 1

    def text(self):
        return "\n".join("".join(row) for row in self.cells)


class Program:
    """A program in a pseudo-terminal."""

    def __init__(self, *command):
        self.started = time.perf_counter()
        self.pid, self.terminal = pty.fork()
        if self.pid == 0:
            size = struct.pack("HHHH", ROWS, COLUMNS, 0, 0)
            fcntl.ioctl(0, termios.TIOCSWINSZ, size)
            os.environ["TERM"] = "xterm-256color"
            os.environ["COLORTERM"] = "truecolor"
            for name in ("NO_COLOR", "TMUX", "STY", "ZELLIJ", "COLORFGBG"):
                os.environ.pop(name, None)
            os.execv(command[0], command)
        self.screen = Screen()

    def read(self, patience):
        """What comes next, and when; None where nothing comes."""
        ready, _, _ = select.select([self.terminal], [], [], patience)
        if not ready:
            return None
        try:
            data = os.read(self.terminal, 65536)
        except OSError:
            return None
        return (time.perf_counter(), data) if data else None

    def press(self, key):
        """Milliseconds to the first byte and to the end of the frame; its bytes."""
        begin = time.perf_counter()
        os.write(self.terminal, key)
        first, frame = None, b""
        while FRAME_END not in frame:
            when, data = self.read(PATIENCE) or sys.exit("no answer to a key")
            first = first or when
            frame += data
        self.screen.take(frame)
        end = frame.find(FRAME_END) + len(FRAME_END)
        return 1e3 * (first - begin), 1e3 * (when - begin), end

    def settle(self):
        """Reads until nothing more comes; how many bytes came, the last of them when."""
        taken = 0
        while piece := self.read(QUIET):
            self.screen.take(piece[1])
            taken += len(piece[1])
            self.last = piece[0]
        if not is_final(self.screen.text()):
            return taken + self.settle()
        return taken

    def status(self, field):
        """A figure of /proc/PID/status: of a process, or summed over its threads."""
        total = 0
        for thread in os.listdir(f"/proc/{self.pid}/task"):
            with open(f"/proc/{self.pid}/task/{thread}/status") as lines:
                total += sum(int(line.split()[1]) for line in lines if line.startswith(field + ":"))
            if not field.endswith("switches"):
                return total
        return total

    def ticks(self):
        with open(f"/proc/{self.pid}/stat") as line:
            fields = line.read().rpartition(")")[2].split()
        return int(fields[11]) + int(fields[12])

    def end(self):
        os.write(self.terminal, b"q")
        while self.read(1.0):
            pass
        os.close(self.terminal)
        _, status = os.waitpid(self.pid, 0)
        return status


def has_results(text):
    return "sizes" in text and "% " in text.replace("…", "") or "(as measured" in text


def is_final(text):
    waits = ("Assessing the", "(as measured", "(chances still", "(before the last")
    return not any(word in text for word in waits) and " sizes" in text


def first_ink(program):
    """Milliseconds to the first byte that is ink and not a sequence."""
    while True:
        when, data = program.read(PATIENCE) or sys.exit("nothing was drawn")
        program.screen.take(data)
        if program.screen.text().strip():
            return when


def median(values):
    return statistics.median(values)


def main():
    binary = os.path.abspath(sys.argv[1] if len(sys.argv) > 1 else "target/release/rimwise")
    case = sys.argv[2] if len(sys.argv) > 2 else "outlet-infant"
    global COLUMNS, ROWS, RUNS
    if len(sys.argv) > 3:
        COLUMNS, ROWS = (int(number) for number in sys.argv[3].split("x"))
    pictures = ("--pictures", sys.argv[4]) if len(sys.argv) > 4 else ()
    RUNS = int(sys.argv[5]) if len(sys.argv) > 5 else RUNS
    of = {name: [] for name in ("harness", "ink", "nominal", "final", "first", "frame", "nudge", "nudge_frame", "busy",
                                "busy_frame", "step_bytes", "bytes", "answer_bytes")}
    for run in range(RUNS):
        echo = Program("/bin/echo", "ink")
        of["harness"].append(1e3 * (first_ink(echo) - echo.started))
        os.close(echo.terminal)
        os.waitpid(echo.pid, 0)

        program = Program(binary, case, *pictures)
        of["ink"].append(1e3 * (first_ink(program) - program.started))
        # The first piece may hold the results already: pieces are looked at one by one.
        nominal = time.perf_counter() if has_results(program.screen.text()) else None
        while not nominal:
            when, data = program.read(PATIENCE) or sys.exit("no results")
            program.screen.take(data)
            nominal = when if has_results(program.screen.text()) else None
        of["nominal"].append(1e3 * (nominal - program.started))
        # The results are final when nothing more comes.
        program.last = nominal
        program.settle()
        of["final"].append(1e3 * (program.last - program.started))
        if run == 0:
            memory = program.status("VmRSS")
        for step in range(KEYS):
            first, frame, count = program.press(DOWN if step % 2 == 0 else UP)
            of["first"].append(first)
            of["frame"].append(frame)
            of["step_bytes"].append(count)
            program.settle()
        for step in range(KEYS):
            key = RIGHT if step % 2 == 0 else LEFT
            first, frame, count = program.press(key)
            if " → " not in program.screen.text():
                sys.exit(f"that was no nudge:\n{program.screen.text()}")
            of["nudge"].append(first)
            of["nudge_frame"].append(frame)
            of["bytes"].append(count)
            # The worker is at it now: the next key must not wait for it.
            first, frame, _ = program.press(LEFT if step % 2 == 0 else RIGHT)
            of["busy"].append(first)
            of["busy_frame"].append(frame)
            of["answer_bytes"].append(program.settle())
        if run < RUNS - 1:
            program.end()
    for step in range(EDITS):
        program.press(RIGHT if step % 2 == 0 else LEFT)
    program.settle()
    memory_after, memory_most = program.status("VmRSS"), program.status("VmHWM")
    memory_own = program.status("RssAnon")
    switches, ticks = program.status("voluntary_ctxt_switches"), program.ticks()
    time.sleep(IDLE_SECONDS)
    switches = (program.status("voluntary_ctxt_switches") - switches) / IDLE_SECONDS
    cpu = (program.ticks() - ticks) / os.sysconf("SC_CLK_TCK") / IDLE_SECONDS
    status = program.end()

    size = os.path.getsize(binary)
    is_filled = not {"braille", "ascii"} & set(pictures)
    frame_goal, bytes_goal = ("3", "8000") if is_filled else ("1", "2500")
    rows = [
        ("the harness alone (echo), ms", f"{median(of['harness']):.1f}", ""),
        ("binary, MB", f"{size / 1e6:.2f}", "4"),
        ("first ink, ms", f"{median(of['ink']):.1f}", "15"),
        ("results shown (as measured), ms", f"{median(of['nominal']):.1f}", "25"),
        ("last result (work-up as well), ms", f"{median(of['final']):.1f}", ""),
        ("key to first byte, ms", f"{median(of['first']):.2f}", "1"),
        ("key to whole frame, ms", f"{median(of['frame']):.2f}", frame_goal),
        ("nudge to first byte, ms", f"{median(of['nudge']):.2f}", "1"),
        ("nudge to whole frame, ms", f"{median(of['nudge_frame']):.2f}", frame_goal),
        ("… to first byte while assessing, ms", f"{median(of['busy']):.2f}", "1"),
        ("… to whole frame while assessing, ms", f"{median(of['busy_frame']):.2f}", ""),
        ("… slowest frame while assessing, ms", f"{max(of['busy_frame']):.2f}", ""),
        ("bytes for a step of the selection", f"{median(of['step_bytes']):.0f}", bytes_goal),
        ("bytes for a nudge", f"{median(of['bytes']):.0f}", bytes_goal),
        ("bytes of the results that follow", f"{median(of['answer_bytes']):.0f}", ""),
        ("idle CPU, %", f"{100 * cpu:.2f}", "0.00"),
        ("idle wake-ups per second", f"{switches:.1f}", "0"),
        ("memory when settled, MiB", f"{memory / 1024:.1f}", ""),
        (f"memory after {EDITS} edits, MiB", f"{memory_after / 1024:.1f}", "8"),
        ("… of it its own, not of files, MiB", f"{memory_own / 1024:.1f}", ""),
        ("memory at its most, MiB", f"{memory_most / 1024:.1f}", ""),
    ]
    print(f"{binary} {case}, {COLUMNS}x{ROWS}, {' '.join(pictures[1:])}, medians of {RUNS} runs, "
          f"{os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}")
    print(f"{'figure':<40}{'measured':>10}{'goal <=':>10}")
    for name, measured, goal in rows:
        print(f"{name:<40}{measured:>10}{goal:>10}")
    if status != 0:
        sys.exit(f"the program ended with {status}")


if __name__ == "__main__":
    signal.signal(signal.SIGPIPE, signal.SIG_DFL)
    main()
