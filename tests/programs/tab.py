"""One tab of a headless Chromium, driven through its DevTools protocol by pipe: real keys, real clicks, real downloads."""

import base64
import json
import os
import subprocess
import time

# https://chromedevtools.github.io/devtools-protocol/
KEYS = {"Tab": 9, "Enter": 13, " ": 32, "Backspace": 8, "ArrowDown": 40}


class Tab:
    """A tab with a profile of its own; `with` ends the browser that it started."""

    def __init__(self, profile, *arguments):
        to_child, self._to = os.pipe()
        self._from, from_child = os.pipe()

        # The browser reads commands from descriptor 3 and writes to 4. They are moved out of the way first.
        def descriptors():
            high = [os.dup(to_child), os.dup(from_child)]
            os.dup2(high[0], 3)
            os.dup2(high[1], 4)

        command = [
            "chromium", "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
            "--disable-background-networking", "--disable-component-update", "--disable-sync",
            "--remote-debugging-pipe", f"--user-data-dir={profile}", *arguments,
        ]
        self._browser = subprocess.Popen(
            command, preexec_fn=descriptors, close_fds=False, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        os.close(to_child)
        os.close(from_child)
        self._next, self._left, self.session = 0, b"", None
        target = self.call("Target.createTarget", url="about:blank")["targetId"]
        self.session = self.call("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        self.call("Page.enable")

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self._browser.terminate()
        self._browser.wait(timeout=30)

    def call(self, method, **parameters):
        """One command and its result; events on the way are left aside."""
        self._next += 1
        message = {"id": self._next, "method": method, "params": parameters}
        if self.session and not method.startswith(("Target.", "Browser.")):
            message["sessionId"] = self.session
        os.write(self._to, json.dumps(message).encode() + b"\0")
        while True:
            while b"\0" not in self._left:
                read = os.read(self._from, 1 << 20)
                if not read:
                    raise RuntimeError("the browser went away")
                self._left += read
            answer, self._left = self._left.split(b"\0", 1)
            answer = json.loads(answer)
            if answer.get("id") == self._next:
                if "error" in answer:
                    raise RuntimeError(f"{method}: {answer['error']}")
                return answer["result"]

    def ask(self, script):
        """The value of an expression in the page."""
        result = self.call("Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True)
        if "exceptionDetails" in result:
            raise RuntimeError(json.dumps(result["exceptionDetails"])[:500])
        return result["result"].get("value")

    def open(self, address):
        self.call("Page.navigate", url=address)
        self.wait("document.readyState === 'complete' && location.href !== 'about:blank'")

    def wait(self, condition, seconds=10):
        until = time.monotonic() + seconds
        while not self.ask(condition):
            if time.monotonic() > until:
                raise RuntimeError(f"waited in vain for {condition}")
            time.sleep(0.05)

    def size(self, width, height):
        self.call("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=False)

    def scheme(self, name):
        self.call("Emulation.setEmulatedMedia", features=[{"name": "prefers-color-scheme", "value": name}])

    def click(self, found):
        """Presses the middle of the element that a script finds, once it stands in view."""
        x, y = self.ask(
            f"(() => {{ const e = {found}; e.scrollIntoView({{block: 'center'}}); const b = e.getBoundingClientRect();"
            "return [b.x + b.width / 2, b.y + b.height / 2]; })()"
        )
        for kind in ("mousePressed", "mouseReleased"):
            self.call("Input.dispatchMouseEvent", type=kind, x=x, y=y, button="left", clickCount=1)

    def key(self, name, times=1, modifiers=0):
        text = {"Enter": "\r", " ": " "}.get(name)
        for _ in range(times):
            given = {"key": name, "code": {" ": "Space"}.get(name, name), "windowsVirtualKeyCode": KEYS[name]}
            self.call("Input.dispatchKeyEvent", type="keyDown", modifiers=modifiers, **given, **({"text": text} if text else {}))
            self.call("Input.dispatchKeyEvent", type="keyUp", modifiers=modifiers, **given)

    def type(self, text):
        self.call("Input.insertText", text=text)

    def picture(self, path, whole=False):
        shot = self.call("Page.captureScreenshot", format="png", captureBeyondViewport=whole)
        path.write_bytes(base64.b64decode(shot["data"]))

    def printed(self, path, width, height):
        """Prints on a paper of that size in inches, at 100 %."""
        result = self.call("Page.printToPDF", paperWidth=width, paperHeight=height, printBackground=True, scale=1)
        path.write_bytes(base64.b64decode(result["data"]))
