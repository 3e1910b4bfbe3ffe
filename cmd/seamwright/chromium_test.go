package main

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"
)

// A chromium is a real browser with one page, driven over a pipe by the DevTools
// protocol: messages in JSON, each ended by a zero byte.
type chromium struct {
	*testing.T
	to      *os.File
	session string

	mu      sync.Mutex
	next    int
	waiting map[int]chan answer
	lines   []string // what the page wrote to its console
}

type answer struct {
	Result json.RawMessage
	Error  *struct{ Message string }
}

// startChromium starts the browser, or skips the test where there is none.
func startChromium(t *testing.T) *chromium {
	t.Helper()
	name, err := exec.LookPath("chromium")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal(err)
		}
		t.Skip(err)
	}
	fromUs, to, err1 := os.Pipe()
	from, toUs, err2 := os.Pipe()
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	c := exec.Command(name, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--hide-scrollbars", "--remote-debugging-pipe", "--user-data-dir="+t.TempDir(), "about:blank")
	c.ExtraFiles = []*os.File{fromUs, toUs} // the browser's 3 and 4
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	fromUs.Close()
	toUs.Close()
	b := &chromium{T: t, to: to, waiting: map[int]chan answer{}}
	done := make(chan struct{})
	go func() { b.hear(from); close(done) }()
	t.Cleanup(func() {
		b.call("Browser.close", nil, nil)
		to.Close()
		<-done
		c.Wait()
	})
	var target struct{ TargetID string }
	b.call("Target.createTarget", map[string]any{"url": "about:blank"}, &target)
	var attached struct{ SessionID string }
	b.call("Target.attachToTarget", map[string]any{"targetId": target.TargetID, "flatten": true}, &attached)
	b.session = attached.SessionID
	for _, domain := range []string{"Runtime", "Page", "Log"} {
		b.call(domain+".enable", nil, nil)
	}
	return b
}

// hear hands out the answers, and keeps what the page complains of.
func (b *chromium) hear(from *os.File) {
	defer from.Close()
	var rest []byte
	for buffer := make([]byte, 1<<16); ; {
		n, err := from.Read(buffer)
		rest = append(rest, buffer[:n]...)
		for {
			text, after, ok := bytes.Cut(rest, []byte{0})
			if !ok {
				break
			}
			var m struct {
				ID     int
				Method string
				Params json.RawMessage
				answer
			}
			json.Unmarshal(text, &m)
			b.mu.Lock()
			switch m.Method {
			case "":
				if waits := b.waiting[m.ID]; waits != nil {
					waits <- m.answer
					delete(b.waiting, m.ID)
				}
			case "Runtime.consoleAPICalled", "Runtime.exceptionThrown", "Log.entryAdded":
				b.lines = append(b.lines, string(m.Params))
			}
			b.mu.Unlock()
			rest = after
		}
		if err != nil {
			return
		}
	}
}

func (b *chromium) call(method string, params, result any) {
	b.Helper()
	b.mu.Lock()
	b.next++
	id, waits := b.next, make(chan answer, 1)
	b.waiting[id] = waits
	b.mu.Unlock()
	m := map[string]any{"id": id, "method": method}
	if params != nil {
		m["params"] = params
	}
	if b.session != "" && method != "Browser.close" {
		m["sessionId"] = b.session
	}
	text, err := json.Marshal(m)
	if err != nil {
		b.Fatal(err)
	}
	if _, err := b.to.Write(append(text, 0)); err != nil {
		b.Fatal(err)
	}
	select {
	case a := <-waits:
		if a.Error != nil {
			b.Fatalf("%s: %s", method, a.Error.Message)
		}
		if result != nil {
			if err := json.Unmarshal(a.Result, result); err != nil {
				b.Fatalf("%s: %v", method, err)
			}
		}
	case <-time.After(30 * time.Second):
		b.Fatalf("%s: no answer", method)
	}
}

// open goes to an address and waits until it has loaded.
func (b *chromium) open(address string) {
	b.Helper()
	b.call("Page.navigate", map[string]any{"url": address}, nil)
	b.until(fmt.Sprintf("document.readyState === 'complete' && location.href.startsWith(%q)", address))
}

// eval runs JavaScript, waiting for a promise, and reads its value into result.
func (b *chromium) eval(script string, result any) {
	b.Helper()
	var got struct {
		Result           struct{ Value json.RawMessage }
		ExceptionDetails *struct {
			Text      string
			Exception struct{ Description string }
		}
	}
	b.call("Runtime.evaluate", map[string]any{"expression": script, "awaitPromise": true, "returnByValue": true}, &got)
	if e := got.ExceptionDetails; e != nil {
		b.Fatalf("%s: %s %s", script, e.Text, e.Exception.Description)
	}
	if result != nil {
		if err := json.Unmarshal(got.Result.Value, result); err != nil {
			b.Fatalf("%s: %v in %s", script, err, got.Result.Value)
		}
	}
}

// text is the value of a script that is a text.
func (b *chromium) text(script string) (s string) {
	b.Helper()
	b.eval("String("+script+")", &s)
	return s
}

// until waits until a script is true.
func (b *chromium) until(script string) {
	b.Helper()
	for late := time.Now().Add(15 * time.Second); ; time.Sleep(5 * time.Millisecond) {
		ok := false
		b.eval("Boolean("+script+")", &ok)
		if ok {
			return
		}
		if time.Now().After(late) {
			b.Fatalf("never true: %s", script)
		}
	}
}

// click presses the mouse on the middle of the element a selector finds.
func (b *chromium) click(selector string) {
	b.Helper()
	var at [2]float64
	b.eval(fmt.Sprintf(`(() => { const e = document.querySelector(%q); e.scrollIntoView({block: 'center'});
		const r = e.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; })()`, selector), &at)
	for _, kind := range []string{"mousePressed", "mouseReleased"} {
		b.call("Input.dispatchMouseEvent", map[string]any{"type": kind, "x": at[0], "y": at[1], "button": "left", "clickCount": 1}, nil)
	}
}

// key presses a key where the focus is.
func (b *chromium) key(name string) {
	b.Helper()
	for _, kind := range []string{"keyDown", "keyUp"} {
		b.call("Input.dispatchKeyEvent", map[string]any{"type": kind, "key": name}, nil)
	}
}

// screen sets the window's size and the color scheme.
func (b *chromium) screen(width, height int, scheme string) {
	b.Helper()
	b.call("Emulation.setDeviceMetricsOverride", map[string]any{"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 600}, nil)
	b.call("Emulation.setEmulatedMedia", map[string]any{"features": []map[string]string{{"name": "prefers-color-scheme", "value": scheme}}}, nil)
	b.eval("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(1))))", nil)
}

// picture keeps what is on the screen, in the folder that SEAMWRIGHT_PICTURES
// names, for a person to look at.
func (b *chromium) picture(name string) {
	b.Helper()
	folder := os.Getenv("SEAMWRIGHT_PICTURES")
	if folder == "" {
		return
	}
	if err := os.WriteFile(filepath.Join(folder, name+".png"), b.shot(), 0o666); err != nil {
		b.Fatal(err)
	}
}

// shot is what is on the screen, as PNG.
func (b *chromium) shot() []byte {
	b.Helper()
	var shot struct{ Data string }
	b.call("Page.captureScreenshot", map[string]any{"format": "png"}, &shot)
	data, err := base64.StdEncoding.DecodeString(shot.Data)
	if err != nil {
		b.Fatal(err)
	}
	return data
}

// console is what the page complained of so far.
func (b *chromium) console() []string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.lines
}
