"""Headless Chromium, driven over its pipe by the DevTools protocol: messages are JSON, each ended by a zero byte."""

import base64
import contextlib
import fcntl
import json
import os
import select
import shutil
import subprocess
import sys
import time

CHROMIUM = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome", "chrome"))), None)
WHY_NOT = "no Chromium is there to open the page (Debian: apt-get install chromium)"
ABOVE = 10  # so that ours are not in the way of the two that the browser listens and speaks on
AS_3_AND_4 = "import os, sys; [os.dup2(int(sys.argv[i + 1]), i + 3) for i in (0, 1)]; os.execv(sys.argv[3], sys.argv[3:])"
LONGEST_S = 60
FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--hide-scrollbars", "--no-first-run",
    "--disable-extensions", "--disable-background-networking", "--disable-component-update", "--disable-sync",
    "--remote-debugging-pipe",
)  # fmt: skip


class Browser:
    """One browser; use it in a with statement."""

    def __init__(self, folder):
        self.folder = folder
        self.events = []
        self.ids = 0
        self.rest = b""

    def __enter__(self):
        pipes = [os.pipe(), os.pipe()]
        (his_in, self.out), (self.back, his_out) = pipes
        high = [fcntl.fcntl(end, fcntl.F_DUPFD, ABOVE) for end in (his_in, his_out)]
        for end in (his_in, his_out):
            os.close(end)
        command = [sys.executable, "-c", AS_3_AND_4, *map(str, high), CHROMIUM, *FLAGS, f"--user-data-dir={self.folder}"]
        self.process = subprocess.Popen(
            command, pass_fds=high, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        for end in high:
            os.close(end)
        return self

    def __exit__(self, *_):
        with contextlib.suppress(OSError, TimeoutError, RuntimeError):
            self.tell("Browser.close")
        try:
            self.process.wait(timeout=20)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()
        for end in (self.out, self.back):
            os.close(end)

    def tell(self, method, session=None, **parameters):
        """Say something and wait for the answer; what happens meanwhile is kept in ``events``."""
        self.ids += 1
        mine = self.ids
        message = {"id": mine, "method": method, "params": parameters} | ({"sessionId": session} if session else {})
        content = json.dumps(message).encode() + b"\0"
        while content:
            content = content[os.write(self.out, content) :]
        for answer in self._messages():
            if answer.get("id") == mine:
                if "error" in answer:
                    raise RuntimeError(f"{method}: {answer['error']}")
                return answer["result"]
            self.events.append(answer)
        raise RuntimeError("the browser has gone")

    def wait_for(self, method):
        """Until something happens that has not been looked at yet."""
        if any(event.get("method") == method for event in self.events):
            return
        for message in self._messages():
            self.events.append(message)
            if message.get("method") == method:
                return

    def _messages(self):
        ends = time.monotonic() + LONGEST_S
        while True:
            while b"\0" in self.rest:
                one, self.rest = self.rest.split(b"\0", 1)
                yield json.loads(one)
            if not select.select([self.back], [], [], max(0.0, ends - time.monotonic()))[0]:
                raise TimeoutError("the browser does not answer")
            more = os.read(self.back, 1 << 20)
            if not more:
                return
            self.rest += more

    def open(self, path, width, height=900):
        """A page of a given width, opened from a file."""
        return Opened(self, path, width, height)


class Opened:
    """A page that is open, and what happened while it opened."""

    def __init__(self, browser, path, width, height):
        self.browser, self.url = browser, path.resolve().as_uri()
        target = browser.tell("Target.createTarget", url="about:blank")["targetId"]
        self.session = browser.tell("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Network", "Log", "Runtime"):
            self.tell(f"{domain}.enable")
        self.tell("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=width < 600)
        browser.events.clear()
        self.tell("Page.navigate", url=self.url)
        browser.wait_for("Page.loadEventFired")
        self.run("new Promise(done => setTimeout(done, 200))")

    def tell(self, method, **parameters):
        return self.browser.tell(method, self.session, **parameters)

    def run(self, script):
        """The value of a script in the page."""
        found = self.tell("Runtime.evaluate", expression=script, awaitPromise=True, returnByValue=True)
        if "exceptionDetails" in found:
            raise RuntimeError(str(found["exceptionDetails"]))
        return found["result"].get("value")

    def requests(self):
        """What was asked for besides the file itself."""
        asked = [
            each["params"]["request"]["url"] for each in self.browser.events if each.get("method") == "Network.requestWillBeSent"
        ]
        return [url for url in asked if url != self.url and not url.startswith("data:")]

    def complaints(self):
        """What the console says."""
        said = ("Log.entryAdded", "Runtime.consoleAPICalled", "Runtime.exceptionThrown")
        return [each["params"] for each in self.browser.events if each.get("method") in said]

    def picture(self):
        """The whole page as a PNG."""
        found = self.tell("Page.captureScreenshot", format="png", captureBeyondViewport=True)
        return base64.b64decode(found["data"])

    def printed(self):
        """The page as the browser prints it, by its own @page."""
        found = self.tell("Page.printToPDF", preferCSSPageSize=True, printBackground=False)
        return base64.b64decode(found["data"])
