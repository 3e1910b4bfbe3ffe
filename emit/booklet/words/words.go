package words

import (
	"embed"
	"maps"
	"slices"
	"strconv"
	"strings"
)

//go:embed *.txt sheets/*.txt tables/*.txt pictures/*.txt makers/*.txt report/*.txt
var files embed.FS

// Default is the language of patterns that name none.
const Default = "en"

// A Catalogue is the messages of one language.
type Catalogue struct {
	Language string // two letters, "en"
	messages map[string]string
}

// Languages lists the languages that there are, in order.
func Languages() []string {
	entries, err := files.ReadDir(".")
	if err != nil {
		return nil
	}
	var out []string
	for _, e := range entries {
		if !e.IsDir() {
			out = append(out, strings.TrimSuffix(e.Name(), ".txt"))
		}
	}
	return out
}

// In returns the messages of the booklet in a language, those of its tables among
// them, and whether there is such a language.
func In(language string) (*Catalogue, bool) {
	return read(language, language+".txt", "tables/"+language+".txt")
}

// OnSheets returns the messages of the foundation sheets in a language; in
// [Default] where there is none. They are apart, as those of tables and pictures
// are: each is made without a booklet too, and reading less takes less time.
func OnSheets(language string) *Catalogue { return some(language, "sheets/") }

// InTables returns the messages of the tables, likewise.
func InTables(language string) *Catalogue { return some(language, "tables/") }

// OnPictures returns the messages on pictures, likewise.
func OnPictures(language string) *Catalogue { return some(language, "pictures/") }

// ToMakers returns the messages of pages of corrections and of replies to letters,
// likewise.
func ToMakers(language string) *Catalogue { return some(language, "makers/") }

// InReport returns the messages of the report, those of the tables among them,
// likewise.
func InReport(language string) *Catalogue { return some(language, "report/", "tables/") }

func some(language string, folders ...string) *Catalogue {
	names := func(language string) []string {
		all := make([]string, len(folders))
		for i, folder := range folders {
			all[i] = folder + language + ".txt"
		}
		return all
	}
	c, ok := read(language, names(language)...)
	if !ok {
		c, _ = read(Default, names(Default)...)
	}
	return c
}

func read(language string, names ...string) (*Catalogue, bool) {
	texts := make([]string, len(names))
	lines := 0
	for i, name := range names {
		text, err := files.ReadFile(name)
		if err != nil {
			return nil, false
		}
		texts[i] = string(text)
		lines += strings.Count(texts[i], "\n")
	}
	c := &Catalogue{Language: language, messages: make(map[string]string, lines)}
	for _, text := range texts {
		for line := range strings.Lines(text) {
			if key, message, ok := strings.Cut(line, "="); ok && !strings.HasPrefix(line, "#") {
				c.messages[strings.TrimSpace(key)] = strings.TrimSpace(message)
			}
		}
	}
	return c, true
}

// Has reports whether there is a message of a name, or one for a number.
func (c *Catalogue) Has(key string) bool {
	_, ok := c.messages[key]
	_, counted := c.messages[key+".one"]
	return ok || counted
}

// Names lists the messages, in order, one that depends on a number once.
func (c *Catalogue) Names() []string {
	var all []string
	for key := range c.messages {
		name, _ := strings.CutSuffix(key, ".one")
		if !strings.HasSuffix(key, ".other") {
			all = append(all, name)
		}
	}
	slices.Sort(all)
	return all
}

// With returns the messages with another text for a name, for every number, instead
// of the message or before it; the messages themselves where there is none.
func (c *Catalogue) With(key, text string, instead bool) *Catalogue {
	if !c.Has(key) {
		return c
	}
	out := &Catalogue{Language: c.Language, messages: maps.Clone(c.messages)}
	for _, name := range [...]string{key, key + ".one", key + ".other"} {
		if message, ok := c.messages[name]; ok && instead {
			out.messages[name] = text
		} else if ok {
			out.messages[name] = text + " " + message
		}
	}
	return out
}

// Say returns a message with its placeholders filled in: names and values in
// turn. A message that there is not is said by its name.
func (c *Catalogue) Say(key string, fill ...string) string {
	message, ok := c.messages[key]
	if !ok {
		return key
	}
	return Fill(message, fill...)
}

// Count returns the message for a number, with {n} and the rest filled in.
func (c *Catalogue) Count(key string, n int, fill ...string) string {
	if n == 1 {
		key += ".one"
	} else {
		key += ".other"
	}
	return c.Say(key, append([]string{"n", strconv.Itoa(n)}, fill...)...)
}

// Fill fills in the placeholders of a message. What is filled in is not looked
// at again.
func Fill(message string, fill ...string) string {
	if len(fill) < 2 || !strings.Contains(message, "{") {
		return message
	}
	var b strings.Builder
	for {
		open := strings.IndexByte(message, '{')
		end := strings.IndexByte(message[open+1:], '}') + open + 1
		if open < 0 || end <= open {
			b.WriteString(message)
			return b.String()
		}
		b.WriteString(message[:open])
		b.WriteString(filled(message[open:end+1], fill))
		message = message[end+1:]
	}
}

// filled returns what stands for a placeholder, "{name}"; itself where nothing does.
func filled(placeholder string, fill []string) string {
	for i := 0; i+1 < len(fill); i += 2 {
		if placeholder[1:len(placeholder)-1] == fill[i] {
			return fill[i+1]
		}
	}
	return placeholder
}
