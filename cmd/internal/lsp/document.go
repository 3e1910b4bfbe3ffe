package lsp

import (
	"time"

	"seamwright/cmd/internal/files"
	"seamwright/cmd/internal/lsp/wire"
)

// A document is a text that is open in the editor.
type document struct {
	uri     string
	version int32
	*text             // as it is now
	due     time.Time // when it is to be checked; zero if it has been
	last    *checked  // what was compiled last, nil before that
	good    *checked  // what was compiled last without an error
}

func (s *server) open(d wire.Document) {
	doc := &document{uri: d.URI, version: d.Version, text: newText(s.nameOf(d.URI), d.Text, s.utf8)}
	s.docs[d.URI] = doc
	if doc.source.Name != files.Stdin {
		s.byName[doc.source.Name] = doc
	}
	s.changed(doc, 0)
}

func (s *server) change(p *wire.DidChange) {
	doc := s.docs[p.TextDocument.URI]
	if doc == nil {
		return
	}
	for _, c := range p.ContentChanges {
		content := c.Text
		if c.Range != nil {
			at := doc.span(*c.Range)
			old := doc.source.Text
			content = old[:at.Start] + c.Text + old[at.End:]
		}
		doc.text = newText(doc.source.Name, content, s.utf8)
	}
	doc.version = p.TextDocument.Version
	s.changed(doc, quiet)
}

func (s *server) close(uri string) {
	doc := s.docs[uri]
	if doc == nil {
		return
	}
	delete(s.docs, uri)
	delete(s.byName, doc.source.Name)
	s.publish()
	s.checkAll()
}

// held tells what the editor holds of a file.
func (s *server) held(path string) (string, bool) {
	if d := s.byName[path]; d != nil {
		return d.source.Text, true
	}
	return "", false
}
