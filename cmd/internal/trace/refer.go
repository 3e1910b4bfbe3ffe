package trace

import (
	"bytes"
	"encoding/xml"
	"errors"
	"strings"
)

// maxCloned bounds what is read for clones, in bytes: clones may hold clones.
const maxCloned = 16 << 20

// mostNested is how deep clones of clones may lie in each other.
const mostNested = 20

// look passes over the whole file once, for where those elements begin that clones
// may show, and for style sheets. What is wrong with the file is told later.
func (r *reader) look() {
	r.at, r.classes = map[string]int64{}, map[string]attrs{}
	dec := xml.NewDecoder(bytes.NewReader(r.svg))
	for {
		from := dec.InputOffset()
		t, err := dec.Token()
		if err != nil {
			return
		}
		e, ok := t.(xml.StartElement)
		if !ok {
			continue
		}
		if id := r.attributes(e.Attr)["id"]; id != "" {
			if _, twice := r.at[id]; !twice {
				r.at[id] = from
			}
		}
		if e.Name.Local == "style" {
			var text string
			if dec.DecodeElement(&text, &e) != nil {
				return
			}
			r.sheet(text)
		}
	}
}

// sheet reads a style sheet, as far as it speaks of classes: that is what drawing
// programs write. Rules for anything else are left out.
func (r *reader) sheet(text string) {
	for from := strings.Index(text, "/*"); from >= 0; from = strings.Index(text, "/*") {
		rest := ""
		if to := strings.Index(text[from:], "*/"); to >= 0 {
			rest = text[from+to+2:]
		}
		text = text[:from] + " " + rest
	}
	for _, rule := range strings.Split(text, "}") {
		names, says, ok := strings.Cut(rule, "{")
		if !ok {
			continue
		}
		for _, name := range strings.Split(names, ",") {
			name = strings.TrimSpace(name)
			class, ok := strings.CutPrefix(name, ".")
			if !ok || strings.ContainsAny(class, " .:#>+~[") {
				r.d.LeftOut = append(r.d.LeftOut, LeftOut{"a rule of a style sheet", name})
				continue
			}
			if r.classes[class] == nil {
				r.classes[class] = attrs{}
			}
			r.classes[class].style(says)
		}
	}
}

type attrs map[string]string

// attributes are an element's own, those of its classes and its style among them.
func (r *reader) attributes(list []xml.Attr) attrs {
	a := attrs{}
	for _, x := range list {
		if x.Name.Space == "" || x.Name.Space == "http://www.w3.org/2000/svg" || x.Name.Local == "href" {
			a[x.Name.Local] = strings.TrimSpace(x.Value)
		}
	}
	for _, class := range strings.Fields(a["class"]) {
		for name, v := range r.classes[class] { // each name once
			a[name] = v
		}
	}
	a.style(a["style"])
	return a
}

// style adds what a style says.
func (a attrs) style(text string) {
	for _, part := range strings.Split(text, ";") {
		if name, v, ok := strings.Cut(part, ":"); ok {
			a[strings.TrimSpace(name)] = strings.TrimSpace(v)
		}
	}
}

// clone reads the element that a <use> shows, as part of it. It returns what could
// not be taken.
func (r *reader) clone(s state, a attrs, depth int) (string, error) {
	from, ok := r.at[strings.TrimPrefix(a["href"], "#")]
	if !ok {
		return "a clone of what is not there", nil
	}
	s.m = s.m.times(matrix{a: 1, d: 1, e: a.number("x"), f: a.number("y")})
	was := r.dec
	defer func() { r.dec = was }()
	r.dec = xml.NewDecoder(bytes.NewReader(r.svg[from:]))
	t, err := r.dec.Token()
	e, ok := t.(xml.StartElement)
	switch {
	case err != nil || !ok:
		return "a clone that can't be read", nil
	case e.Name.Local == "symbol" || e.Name.Local == "svg":
		return "a clone of a symbol; unlink it", nil
	case r.inClone >= mostNested:
		return "a clone of itself", nil
	}
	r.inClone++
	err = r.element(e, s, depth+1)
	r.inClone--
	if r.cloned += r.dec.InputOffset(); err == nil && r.cloned > maxCloned {
		err = errors.New("its clones hold too much")
	}
	return "", err
}
