package compare_test

import (
	"testing"

	"seamwright/compiler/pattern"
	"seamwright/emit/compare"
	"seamwright/emit/edition"
)

// A record may be damaged and still be read: whatever it holds, comparing ends,
// and telling of it does too.
func FuzzDamagedRecords(f *testing.F) {
	old := recorded(f, quarters)
	var e edition.Editions
	e.Add(old)
	f.Add(e.Bytes())
	f.Add([]byte(`{"schema":"seamwright-editions/1","edition":1,"facts":{"block/quarters/8in":{"finished":[1e300,-1]},
"block/quarters/8in/section/A":{"outline":[[1e308,0],[-1e308,1]]},"block/quarters/8in/space/A 1":{"polygon":[[0,0],[0,0],[1e308,1e308]],"size":[-1,1e308]},
"block/quarters/8in/copy/1":{"section":"A","turn":1e308},"block/quarters/8in/join/1":{}}}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		e, err := edition.Read(data)
		if err != nil || len(data) > 1<<16 {
			return
		}
		paper, _ := pattern.SheetNamed("letter")
		for _, pair := range [][2]*edition.Record{{old, e.Last()}, {e.Last(), old}} {
			r := compare.Compare(pair[0], pair[1])
			r.Text("old", "new")
			r.Markdown("old", "new", 2)
			compare.HTML([]compare.Pair{{Old: "old", New: "new", Report: r}})
			r.Errata(paper)
			r.Reprints()
		}
		if r := compare.Compare(e.Last(), e.Last()); !r.Same() {
			t.Errorf("a record differs from itself: %s", r.Text("a", "a"))
		}
	})
}
