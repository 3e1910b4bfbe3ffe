// Command look shows drawings to whoever must judge them, which no test can:
//
//	go run ./.ci/look contact -out contact.png
//	go run ./.ci/look contact -of booklet -out booklets.png
//	go run ./.ci/look changes -out changes.html
//	go run ./.ci/look changes -against HEAD~3 -out changes.html
//
// Contact puts every page of every example on one sheet: the pictures and sheets,
// or all pages of the booklets. Changes puts each drawing that has changed beside
// what it was, and the difference beside both, on a page that any browser shows
// and that asks for nothing else: the expected pictures of the tests as they are
// now, after a run with -update, against those of the last commit; or, against
// any revision, all drawings of all examples as that revision's program makes
// them and as this one does.
//
// Run it from the top of the module.
package main

import (
	"flag"
	"fmt"
	"log"
	"os"
)

func main() {
	log.SetFlags(0)
	if len(os.Args) < 2 {
		log.Fatal("look contact, or look changes")
	}
	f := flag.NewFlagSet(os.Args[1], flag.ExitOnError)
	out := f.String("out", "", "the `file` to write")
	var data []byte
	var err error
	switch os.Args[1] {
	case "contact":
		of := f.String("of", "sheets", "`what` is shown: sheets (with pictures) or booklet")
		width := f.Int("width", 220, "how wide each page is, in `dots`")
		f.Parse(os.Args[2:])
		data, err = contact("examples", *of, *width)
	case "changes":
		against := f.String("against", "", "a `revision` whose program draws every example, instead of the expected pictures of the last commit")
		f.Parse(os.Args[2:])
		data, err = changes(*against)
	default:
		err = fmt.Errorf("look knows no %q; it knows contact and changes", os.Args[1])
	}
	if err == nil && *out == "" {
		err = fmt.Errorf("say where to write: -out FILE")
	}
	if err == nil {
		err = os.WriteFile(*out, data, 0o666)
	}
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%s is written, %d kB\n", *out, len(data)>>10)
}
