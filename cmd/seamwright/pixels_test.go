package main

import (
	"fmt"
	"net"
	"net/http"
	"os"
	"slices"
	"strings"
	"testing"
	"time"
)

// listens runs in a page before its own scripts, and notes when an event has come, when the
// page is done with it, when the next frame begins and when that is painted.
const listens = `
const now = () => performance.timeOrigin + performance.now();
const add = EventSource.prototype.addEventListener;
EventSource.prototype.addEventListener = function (name, f) {
	add.call(this, name, name !== 'build' ? f : (e) => {
		const m = { heard: now() };
		f(e);
		m.done = now();
		requestAnimationFrame(() => {
			m.frame = now();
			const c = new MessageChannel(); // heard of before whatever the page has put off
			c.port1.onmessage = () => { m.painted = now(); window.painted?.(m); };
			c.port2.postMessage(0);
		});
	});
};`

// timed is what 25 saves took, in milliseconds.
type timed struct{ heard, script, frame, paint, all []float64 }

// times saves again and again, not always at the same point of a frame, each time when
// all that follows the last save has been done, and waits until the page is painted.
func (b *chromium) times(save func(i int)) (took timed) {
	for i := range 25 {
		time.Sleep(700*time.Millisecond + time.Duration(i%16)*time.Millisecond)
		b.eval("window.waits = new Promise((done) => { window.painted = done; }); 1", nil)
		save(i)
		saved := float64(time.Now().UnixMicro()) / 1000
		var m struct{ Heard, Done, Frame, Painted float64 }
		b.eval("window.waits", &m)
		took.heard = append(took.heard, m.Heard-saved)
		took.script = append(took.script, m.Done-m.Heard)
		took.frame = append(took.frame, m.Frame-m.Done)
		took.paint = append(took.paint, m.Painted-m.Frame)
		took.all = append(took.all, m.Painted-saved)
	}
	return took
}

func (t timed) String() string {
	middle := func(v []float64) float64 { slices.Sort(v); return v[len(v)/2] }
	all := middle(t.all)
	return fmt.Sprintf("median %.0f ms, least %.0f, nine of ten within %.0f; to the page %.1f, its script %.1f, to the frame %.1f, paint %.1f",
		all, t.all[0], t.all[len(t.all)*9/10], middle(t.heard), middle(t.script), middle(t.frame), middle(t.paint))
}

// fleet is a block of so many sections of four pieces, whose first seam leans by i
// steps.
func fleet(sections, i int) string {
	var s strings.Builder
	fmt.Fprintf(&s, "pattern \"Fleet\" {\n  edition 1\n}\nfabric a \"lamp\" light #f0dca0\nfabric b \"tide\" dark #1f3440\nblock fleet %d x 20 finished %din {\n", sections/5*4, sections/5*2)
	for n := range sections {
		x, y, lean := n/5*4, n%5*4, 0.0
		if n == 7 {
			lean = float64(i%7) / 50
		}
		fmt.Fprintf(&s, "  section {\n    1 a at (%d, %d)\n    2 b along (%g, %d) -- (%g, %d)\n    3 a along (%g, %d) -- (%g, %d)\n    4 b along (%d, %g) -- (%d, %g)\n  }\n",
			x+2, y+1, float64(x)+1+lean, y, float64(x)+1, y+4, float64(x)+3, y, float64(x)+3-lean, y+4, x, float64(y)+3, x+4, float64(y)+3)
	}
	for x := 4; x < sections/5*4; x += 4 {
		fmt.Fprintf(&s, "  join (%d, 0) -- (%d, 20)\n", x, x)
	}
	for y := 4; y < 20; y += 4 {
		fmt.Fprintf(&s, "  join (0, %d) -- (%d, %d)\n", y, sections/5*4, y)
	}
	return s.String() + "}\n"
}

// TestSaveToPixels tells how long it is from the end of a save until a real browser
// has painted it, and beside it how long that browser takes where an almost empty
// page only puts in a drawing of as many pieces that it is sent.
func TestSaveToPixels(t *testing.T) {
	if os.Getenv("SEAMWRIGHT_MEASURE") == "" {
		t.Skip("measures only with SEAMWRIGHT_MEASURE set")
	}
	b := startChromium(t)
	b.call("Page.addScriptToEvaluateOnNewDocument", map[string]any{"source": listens}, nil)
	boat := example(t, "harbour_boat.seam")
	for _, c := range []struct {
		name string
		text func(i int) string
	}{
		{"the boat, another color", func(i int) string { return strings.Replace(boat, "#b8432f", fmt.Sprintf("#%06x", 0x400000+i*977), 1) }},
		{"the boat, a seam moved", func(i int) string { return strings.Replace(boat, "(4.25, 7)", fmt.Sprintf("(4.25, 7.%d)", i%7), 1) }},
		{"100 pieces, a seam moved", func(i int) string { return fleet(25, i+1) }},
		{"1,000 pieces, a seam moved", func(i int) string { return fleet(250, i+1) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			b.T = t
			file, address := watched(t, c.text(40))
			b.open(address)
			b.until("document.documentElement.dataset.shown")
			t.Log(b.times(func(i int) {
				if err := os.WriteFile(file, []byte(c.text(i)), 0o666); err != nil {
					t.Fatal(err)
				}
			}))
		})
	}
	for _, pieces := range []int{10, 1000} {
		t.Run(fmt.Sprintf("the browser alone, %d pieces", pieces), func(t *testing.T) {
			b.T = t
			send, address := swaps(t)
			b.open(address)
			b.until("document.readyState === 'complete'")
			t.Log(b.times(func(i int) { send <- scraps(pieces, i) }))
		})
	}
}

// scraps is a drawing of so many pieces with their names.
func scraps(pieces, i int) string {
	var s strings.Builder
	s.WriteString(`<svg width="600" height="600" viewBox="0 0 40 40">`)
	for n := range pieces {
		x, y := n%32, n/32
		fmt.Fprintf(&s, `<polygon points="%d,%d %d,%d %d,%d" fill="#%06x"/><text x="%d" y="%d" font-size="0.3">A%d</text>`, x, y, x+1, y, x, y+1, 0x400000+i*977, x, y+1, n)
	}
	return s.String() + "</svg>"
}

// swaps serves a page that shows what it is sent.
func swaps(t *testing.T) (send chan<- string, address string) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	sent := make(chan string)
	s := &http.Server{Handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path != "/events" {
			w.Header().Set("Content-Type", "text/html")
			fmt.Fprint(w, `<link rel="icon" href="data:,"><div></div><script>
				new EventSource('events').addEventListener('build', (e) => { document.querySelector('div').innerHTML = e.data; });</script>`)
			return
		}
		w.Header().Set("Content-Type", "text/event-stream")
		for {
			w.(http.Flusher).Flush()
			select {
			case text := <-sent:
				fmt.Fprintf(w, "event: build\ndata: %s\n\n", text)
			case <-r.Context().Done():
				return
			}
		}
	})}
	go s.Serve(l)
	t.Cleanup(func() { s.Close() })
	return sent, "http://" + l.Addr().String() + "/"
}
