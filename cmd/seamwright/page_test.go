package main

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// watched runs the real program on a pattern in a folder of its own, and returns
// the file and the address of the live page.
func watched(t *testing.T, text string, flags ...string) (file, address string) {
	t.Helper()
	file = filepath.Join(t.TempDir(), "boat.seam")
	if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	_, address, end := running(t, filepath.Dir(file), append([]string{"watch", "boat.seam"}, flags...)...)
	t.Cleanup(end)
	return file, address
}

// running starts the real program, which is to watch, in a folder. It returns what
// it says up to the address of the page, that address, and what ends it.
func running(t *testing.T, dir string, args ...string) (said, address string, end func()) {
	t.Helper()
	c := exec.Command("seamwright", args...)
	c.Dir = dir
	c.Stderr = os.Stderr
	out, err := c.StdoutPipe()
	if err == nil {
		err = c.Start()
	}
	if err != nil {
		t.Fatal(err)
	}
	lines := make(chan string, 1000)
	go func() {
		for s := bufio.NewScanner(out); s.Scan(); {
			lines <- s.Text()
		}
		close(lines)
	}()
	end = func() {
		c.Process.Signal(os.Interrupt)
		for range lines {
		}
		if err := c.Wait(); err != nil {
			t.Errorf("watch ended with %v", err)
		}
	}
	for line := range lines {
		said += line + "\n"
		if _, at, ok := strings.Cut(line, "The live page: "); ok {
			return said, at, end
		}
	}
	end()
	t.Fatal("watch told no address")
	return "", "", nil
}

func example(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "examples", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// change saves a text with one part of it replaced.
func change(t *testing.T, file, text, old, new string) string {
	t.Helper()
	if strings.Count(text, old) != 1 {
		t.Fatalf("the text holds %q %d times", old, strings.Count(text, old))
	}
	text = strings.Replace(text, old, new, 1)
	if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	return text
}

// whirl is a drawing that can't be sewn as it is written.
const whirl = `pattern "Whirl" { edition 1 }
fabric sky "sky" light #dfeaf0
block harbour_boat 8 x 8 finished 8in {
  line (2, 0) -- (2, 6), (0, 6) -- (6, 6), (6, 8) -- (6, 2), (8, 2) -- (2, 2)
  piece sky at c, (1, 3), (7, 5), (4, 7), (4, 1)
}
`

// lineOf is the number of the line that holds a text.
func lineOf(text, part string) string {
	return fmt.Sprint(strings.Count(text[:strings.Index(text, part)], "\n") + 1)
}

func TestLivePage(t *testing.T) {
	b := startChromium(t)
	text := example(t, "harbour_boat.seam")
	file, address := watched(t, text)
	b.screen(1400, 900, "light")
	b.open(address)
	b.until("document.documentElement.dataset.shown")

	t.Run("shows the block", func(t *testing.T) {
		b.T = t
		if got := b.text("document.title"); got != "Harbour Boat - Seamwright" {
			t.Errorf("title %q", got)
		}
		if got := b.text("document.getElementById('drawing').getAttribute('aria-label')"); got != "Harbour Boat, finishes at 6 in, front, 3 different sections, 10 pieces" {
			t.Errorf("the drawing is called %q", got)
		}
		if got := b.text("document.querySelectorAll('#drawing .piece').length"); got != "10" {
			t.Errorf("%s pieces are drawn", got)
		}
		if got := b.text("document.querySelector('#drawing .piece').getAttribute('fill')"); got != "#b8432f" {
			t.Errorf("A1 is %s, the jib #b8432f", got)
		}
		if got := b.text("document.getElementById('state').textContent"); !strings.HasPrefix(got, "Built") {
			t.Errorf("state %q", got)
		}
	})

	t.Run("a piece leads to its line, a line to its piece", func(t *testing.T) {
		b.T = t
		b.click("#drawing [data-piece='4']") // B3, the mast
		want := lineOf(text, "3 mast")
		if got := b.text("document.querySelector('#text .chosen').dataset.line"); got != want {
			t.Errorf("line %s is marked, the mast is written on line %s", got, want)
		}
		if got := b.text("document.getElementById('caption').textContent"); !strings.Contains(got, "B3, mast") || !strings.Contains(got, "line "+want) || !strings.Contains(got, "seam 4 1/8 in") {
			t.Errorf("told %q", got) // from (4.25, 2 1/2) to (4.25, 8) on a grid of 8 at 6 in: 4.125 in
		}
		b.picture("piece-light")
		b.click("#text [data-line='" + lineOf(text, "1 hull") + "']")
		if got := b.text("document.querySelector('#drawing .chosen').dataset.chosen"); got != "5" {
			t.Errorf("the hull's line leads to piece %s", got)
		}
		b.eval("document.getElementById('board').focus()", nil)
		b.key("ArrowRight")
		if got := b.text("document.querySelector('#drawing .chosen').dataset.chosen"); got != "6" {
			t.Errorf("the arrow key leads to piece %s", got)
		}
	})

	t.Run("the slider sews", func(t *testing.T) {
		b.T = t
		steps := func(n int) {
			b.eval(fmt.Sprintf("(() => { const s = document.getElementById('step'); s.value = %d; s.dispatchEvent(new Event('input')); })()", n), nil)
		}
		if got := b.text("document.getElementById('step').max"); got != "12" { // ten pieces and two joins
			t.Errorf("%s steps", got)
		}
		steps(4)
		if got := b.text("document.querySelectorAll('#drawing .unsewn').length"); got != "6" {
			t.Errorf("after four steps %s pieces are not sewn", got)
		}
		if got := b.text("document.getElementById('told').textContent"); !strings.Contains(got, "4 of 12: B2, sky") {
			t.Errorf("told %q", got)
		}
		if got := b.text("[...document.querySelectorAll('#drawing > g')].filter((g) => g.hasAttribute('transform')).length"); got != "3" {
			t.Errorf("%s of 3 sections lie apart", got)
		}
		b.picture("sewing-light")
		b.eval("document.getElementById('step').focus()", nil)
		steps(12)
		if got := b.text("document.querySelectorAll('#drawing > g[transform]').length"); got != "0" {
			t.Errorf("%s parts lie apart when all is sewn", got)
		}
	})

	t.Run("sizes, cloth, back, layers", func(t *testing.T) {
		b.T = t
		b.eval("(() => { const s = document.getElementById('size'); s.value = 2; s.dispatchEvent(new Event('change')); })()", nil)
		if got := b.text("document.querySelectorAll('#drawing .piece').length"); got != "13" { // the hull in two
			t.Errorf("%s pieces at 12 in", got)
		}
		b.eval("(() => { const s = document.getElementById('colorway'); s.value = 1; s.dispatchEvent(new Event('change')); })()", nil)
		if got := b.text("document.querySelector('#drawing .piece').getAttribute('fill')"); got != "#f3ecdd" {
			t.Errorf("in two fabrics the jib is %s, not the sail's", got)
		}
		x := func() (x float64) {
			b.eval("document.querySelector('#drawing .piece').getBoundingClientRect().x", &x)
			return x
		}
		front := x()
		b.click("#back")
		if back := x(); back <= front {
			t.Errorf("on the back the jib lies at %v, on the front at %v", back, front)
		}
		for _, layer := range []string{"seams", "joins", "arrows"} {
			b.click("#show-" + layer)
		}
		if got := b.text("document.querySelectorAll('#drawing line.join').length"); got != "3" {
			t.Errorf("%s joins are drawn", got)
		}
		b.picture("layers-light")
		b.until("document.querySelector('#fits td')")
		b.click("#show-worst")
		if got := b.text("[...document.querySelectorAll('.of-worst')].map((t) => t.textContent).join('; ')"); got != "narrowest, 3/4 in; least to spare, 3/16 in" {
			t.Errorf("the worst points are told as %q", got) // at 12 in the mast is 1/2 of 8 squares wide
		}
		// Eight slices of a square meet in its middle, and a ninth piece only touches it with a side.
		var busiest string
		b.eval(`import('/model.js').then((m) => {
			const ring = [[0, 0], [1, 0], [2, 0], [2, 1], [2, 2], [1, 2], [0, 2], [0, 1]];
			const pieces = ring.map((p, i) => ({ polygon: [p, ring[(i + 1) % 8], [1, 1]] }));
			pieces.push({ polygon: [[0, 1], [2, 1], [2, 1.1]] });
			return JSON.stringify(m.busiest({ pieces }).map((p) => [p.at, p.pieces]));
		})`, &busiest)
		if busiest != "[[[1,1],9]]" {
			t.Errorf("most pieces meet at %s", busiest)
		}
		b.click("#back")
		b.picture("worst-light")
		b.click("#larger")
		b.click("#larger")
		if got := b.text("document.getElementById('board').className"); got != "near" {
			t.Error("it does not zoom")
		}
		b.click("#whole")
		for _, layer := range []string{"seams", "joins", "arrows"} {
			b.click("#show-" + layer)
		}
		b.click("#front")
		b.eval("(() => { const s = document.getElementById('colorway'); s.value = 0; s.dispatchEvent(new Event('change')); })()", nil)
	})

	t.Run("sheets at true relative size, papers, cutting", func(t *testing.T) {
		b.T = t
		b.until("[...document.querySelectorAll('#sheets img')].length === 3 && document.querySelector('#fits td')")
		b.eval("document.getElementById('sheets').scrollIntoView()", nil)
		b.until("[...document.querySelectorAll('#sheets img')].every((i) => i.complete && i.naturalWidth > 0)")
		b.picture("sheets-light")
		if got := b.text("document.querySelector('#sheets img').width / document.querySelector('#sheets img').height"); !strings.HasPrefix(got, "0.77") { // 8.5 / 11
			t.Errorf("letter paper is shown %s wide for its height", got)
		}
		if got := b.text("[...document.querySelectorAll('#fits tbody tr')].map((r) => r.textContent).join('|')"); strings.Count(got, "fits") != 6 {
			t.Errorf("fits: %s", got)
		}
		if got := b.text("document.getElementById('cutting').textContent"); !strings.Contains(got, "shallows") || !strings.Contains(got, "rectangle") {
			t.Errorf("cutting: %s", got)
		}
	})

	t.Run("an edit is shown, and a problem leads to its place", func(t *testing.T) {
		b.T = t
		now := b.text("document.documentElement.dataset.drawn")
		edited := change(t, file, text, "#b8432f", "#123456")
		b.until("document.querySelector('#drawing .piece').getAttribute('fill') === '#123456' && document.documentElement.dataset.drawn !== '" + now + "'")
		if got := b.text("document.getElementById('size').value"); got != "2" {
			t.Error("an edit changes the chosen size")
		}
		edited = change(t, file, edited, "  section A {", "\n\n  section A {")
		bad := change(t, file, edited, "3 mast  along", "3 masst along")
		b.until("document.querySelector('#problem-list .error')")
		b.until("document.documentElement.dataset.shown === document.documentElement.dataset.drawn")
		if got := b.text("document.querySelector('#problem-list li').textContent"); !strings.Contains(got, "masst") || !strings.Contains(got, "line "+lineOf(bad, "masst")) {
			t.Errorf("problem: %s", got)
		}
		if got := b.text("document.querySelectorAll('#drawing .piece').length"); got != "13" {
			t.Error("the last good block is gone")
		}
		b.click("#problem-list .link")
		if got := b.text("document.querySelector('#text .chosen mark').textContent"); got != "masst" {
			t.Errorf("marked: %s", got)
		}
		b.picture("problem-light")
		// the drawing is older than the text, and still leads to the right line
		b.click("#drawing [data-piece='1']")
		if got := b.text("document.querySelector('#text .chosen').dataset.line"); got != lineOf(bad, "2 sky   along stem -- masthead") {
			t.Errorf("A2 leads to line %s", got)
		}
		change(t, file, bad, "3 masst along", "3 mast  along")
		b.until("document.getElementById('problems').hidden || !document.querySelector('#problem-list .error')")
	})

	t.Run("a problem of the drawing is drawn", func(t *testing.T) {
		b.T = t
		gap := example(t, "harbour_boat.seam")
		change(t, file, gap, "  join deck  //", "  // join deck")
		b.until("document.querySelector('#problem-list .error')")
		change(t, file, gap, "2 sky   along (4.25, 7) -- stern", "2 sky   along (4.25, 7) -- (4.4, 2.5)")
		b.until("document.querySelector('#drawing .fault') || document.querySelector('.figure')")
		b.picture("drawn-light")
		change(t, file, whirl, "edition 1", "edition 2")
		b.until("document.querySelectorAll('.figure.whole .ground').length === 8 && document.querySelector('.figure.whole .cure')")
		b.picture("drawn-whirl")
		change(t, file, gap, "edition   1", "edition   3")
		b.until("!document.querySelector('#problem-list .error')")
	})

	t.Run("dark, phone, names", func(t *testing.T) {
		b.T = t
		b.eval("scrollTo(0, 0)", nil)
		b.screen(1400, 900, "dark")
		b.click("#show-seams")
		b.click("#show-joins")
		b.eval("scrollTo(0, 0)", nil)
		b.picture("dark")
		b.click("#show-seams")
		b.click("#show-joins")
		if got := b.text("getComputedStyle(document.body).backgroundColor"); got != "rgb(21, 25, 27)" {
			t.Errorf("dark ground: %s", got)
		}
		for _, width := range []int{360, 390} {
			b.screen(width, 780, "light")
			b.picture(fmt.Sprint("phone-", width))
			if got := b.text("document.documentElement.scrollWidth <= innerWidth"); got != "true" {
				t.Errorf("at a width of %d the page is %s wide", width, b.text("document.documentElement.scrollWidth"))
			}
		}
		b.eval("document.getElementById('text').scrollIntoView()", nil)
		b.picture("phone-papers")
		b.screen(390, 780, "dark")
		b.picture("phone-dark")
		b.screen(1400, 900, "light")
		if got := b.text(`[...document.querySelectorAll('button, select, input, [tabindex]')].filter((e) =>
			!(e.textContent.trim() || e.getAttribute('aria-label') || e.labels?.length || e.getAttribute('aria-labelledby'))).map((e) => e.id).join()`); got != "" {
			t.Errorf("without a name: %s", got)
		}
	})

	b.T = t
	if lines := b.console(); len(lines) > 0 {
		t.Errorf("the page complains: %s", strings.Join(lines, "\n"))
	}
}

// A pattern that was never good is shown as far as it goes: its text and what is
// wrong. Then the page follows.
func TestLivePageFromNothing(t *testing.T) {
	b := startChromium(t)
	text := example(t, "harbour_boat.seam")
	bad := strings.Replace(text, "along (4.25, 7) -- stern", "along (4.25, 7) -- sterm", 1)
	file, address := watched(t, bad)
	b.open(address)
	b.until("document.documentElement.dataset.shown")
	if got := b.text("document.getElementById('state').textContent"); got != "1 error; there is no good build yet" {
		t.Errorf("state %q", got)
	}
	b.click("#problem-list .link")
	if got := b.text("document.querySelector('#text .chosen mark').textContent"); got != "sterm" {
		t.Errorf("marked: %q", got)
	}
	for _, id := range []string{"larger", "back", "after", "show-seams"} { // nothing to act on, and no harm
		b.click("#" + id)
	}
	change(t, file, bad, "sterm", "stern")
	b.until("document.querySelectorAll('#drawing .piece').length === 10 && document.querySelector('#sheets img')")
	if lines := b.console(); len(lines) > 0 {
		t.Errorf("the page complains: %s", strings.Join(lines, "\n"))
	}
}

// Arrows leave the names of the spaces free; of a section that is glued together it
// is told.
func TestLivePageOfParts(t *testing.T) {
	b := startChromium(t)
	_, address := watched(t, example(t, "long_beam.seam"))
	b.open(address)
	b.until("document.querySelector('#fits td')")
	if got := b.text("document.querySelector('#fits tbody tr').textContent"); strings.Count(got, "in parts, glued together") != 2 {
		t.Errorf("fits: %s", got)
	}
	b.click("#show-arrows")
	if got := b.text(`[...document.querySelectorAll('#drawing .turn')].flatMap((a) => {
		const r = a.getBoundingClientRect();
		return [...document.querySelectorAll('#drawing text')].filter((t) => { const s = t.getBoundingClientRect(), x = s.x + s.width / 2, y = s.y + s.height / 2;
			return x > r.left && x < r.right && y > r.top && y < r.bottom; }).map((t) => t.textContent);
	}).join()`); got != "" {
		t.Errorf("arrows cover %s", got)
	}
}

// Layers of cloth are told where most pieces meet, the same number as the rule tells, and
// again after a save.
func TestLivePageOfLayers(t *testing.T) {
	b := startChromium(t)
	text := example(t, "homing_geese.seam")
	file, address := watched(t, text)
	b.open(address)
	b.until("document.querySelector('#fits td')")
	b.click("#show-cloth")
	b.until("document.querySelector('.of-layers')")
	const most = "Math.max(...[...document.querySelectorAll('.of-layers')].map((t) => Number(t.textContent)))"
	if got, rule := b.text(most), b.text("document.getElementById('problem-list').textContent"); got != "14" || !strings.Contains(rule, "14 layers of cloth lie at a point 3 in from the left and 3 in") {
		t.Errorf("%s layers, and the rule says %q", got, rule)
	}
	b.click("#show-worst")
	if got := b.text("[...document.querySelectorAll('.of-worst')].map((t) => t.textContent).join()"); !strings.Contains(got, "8 pieces meet, 14 layers") {
		t.Errorf("the worst points are told as %q", got)
	}
	b.eval("document.querySelector('.of-layers').dataset.old = 1", nil)
	change(t, file, text, "#a8643a", "#a8643b")
	b.until("document.querySelector('.of-layers') && !document.querySelector('.of-layers[data-old]')")
	if got := b.text(most); got != "14" {
		t.Errorf("%s layers after a save", got)
	}
}

// Of equal sections each leads to where it is written, and of a placed unit its
// statement to what it places.
func TestLivePageOfEquals(t *testing.T) {
	b := startChromium(t)
	const text = `fabric a "a" light #f0dca0
fabric b "b" dark #1f3440
unit end 2 x 2 { section { 1 a at c; 2 b along (1.5, 0) -- (1.5, 2) } }
block six 6 x 2 finished 6in {
  section {
    1 a at (0.5, 1)
    2 b along (1, 0) -- (1, 2)
  }
  section {
    1 a at (3.5, 1)
    2 b along (3, 2) -- (3, 0)
  }
  place end at (4, 0)
  join (2, 0) -- (2, 2)
  join (4, 0) -- (4, 2)
}
`
	_, address := watched(t, text)
	b.open(address)
	b.until("document.documentElement.dataset.shown")
	for piece, words := range map[string]string{"1": "2 b along (1, 0)", "3": "2 b along (3, 2)"} {
		b.click("#drawing [data-piece='" + piece + "']")
		if got, want := b.text("document.querySelector('#text .chosen').dataset.line"), lineOf(text, words); got != want {
			t.Errorf("piece %s leads to line %s, not %s", piece, got, want)
		}
		b.click("#text [data-line='" + lineOf(text, "1 a at (0.5") + "']")
		b.click("#text [data-line='" + lineOf(text, words) + "']")
		if got := b.text("document.querySelector('#drawing .chosen').dataset.chosen"); got != piece {
			t.Errorf("the line of %s leads to piece %s", words, got)
		}
	}
	b.click("#text [data-line='" + lineOf(text, "place end") + "']")
	if got := b.text("document.querySelector('#drawing .chosen').dataset.chosen"); got != "4" {
		t.Errorf("the placed unit's line leads to piece %s", got)
	}
}

// Another site's page gets nothing from the live page, whatever it tries.
func TestOtherSites(t *testing.T) {
	b := startChromium(t)
	_, address := watched(t, example(t, "harbour_boat.seam"))
	_, other := watched(t, example(t, "guiding_star.seam")) // another origin: a port of its own
	b.open(other)
	b.until("document.documentElement.dataset.shown")
	for _, try := range []string{
		"fetch('%s').then(() => 'read', () => 'refused')",
		"fetch('%sevents', {mode: 'no-cors'}).then(() => 'read', () => 'refused')",
		"new Promise((done) => { const i = new Image(); i.onload = () => done('read'); i.onerror = () => done('refused'); i.src = '%sout/boat/front.svg'; })",
	} {
		var got string
		if b.eval(fmt.Sprintf(try, address), &got); got != "refused" {
			t.Errorf("%s: %s", try, got)
		}
	}
}
