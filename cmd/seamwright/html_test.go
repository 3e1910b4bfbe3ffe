package main

import (
	"path/filepath"
	"strconv"
	"testing"
)

// The report, opened from its folder in a real browser: it is styled, nothing in
// it is refused or missing, and it fits a wide window, a narrow one and a phone.
func TestReportInBrowser(t *testing.T) {
	dir := t.TempDir()
	source, err := filepath.Abs("../../examples/harbour_boat.seam")
	if err != nil {
		t.Fatal(err)
	}
	if r := runIn(t, dir, "build", source, "--only", "report", "--out", "out"); r.code != good {
		t.Fatal(r.stderr)
	}
	b := startChromium(t)
	b.open("file://" + filepath.ToSlash(filepath.Join(dir, "out", "report.html")))
	for _, width := range []int{1280, 700, 360} {
		b.call("Emulation.setDeviceMetricsOverride", map[string]any{"width": width, "height": 800, "deviceScaleFactor": 1, "mobile": width < 500}, nil)
		b.until("window.innerWidth === " + strconv.Itoa(width))
		if wide := b.text("document.documentElement.scrollWidth"); wide != strconv.Itoa(width) {
			t.Errorf("in a window %d wide the page is %s wide", width, wide)
		}
		if n := b.text("[...document.querySelectorAll('figure svg')].filter(s => s.getBoundingClientRect().width < 150 || s.getBBox().width === 0).length"); n != "0" {
			t.Errorf("in a window %d wide %s pictures are not to be seen", width, n)
		}
	}
	if got := b.text("getComputedStyle(document.querySelector('h2')).borderTopWidth"); got != "2px" {
		t.Errorf("the style sheet is not let in: a line is %s", got)
	}
	b.call("Emulation.setEmulatedMedia", map[string]any{"features": []map[string]string{{"name": "prefers-color-scheme", "value": "dark"}}}, nil)
	if got := b.text("getComputedStyle(document.body).backgroundColor"); got != "rgb(21, 25, 31)" {
		t.Errorf("in the dark the ground is %s", got)
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if len(b.lines) > 0 {
		t.Errorf("the browser complains: %s", b.lines)
	}
}
