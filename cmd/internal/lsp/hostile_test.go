package lsp_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"seamwright/cmd/internal/lsp"
	"seamwright/cmd/internal/lsp/wire"
	"seamwright/lang/families"
)

var methods = []string{
	"textDocument/formatting", "textDocument/rangeFormatting", "textDocument/documentSymbol", "textDocument/foldingRange",
	"textDocument/hover", "textDocument/completion", "textDocument/definition", "textDocument/references", "textDocument/documentHighlight",
	"textDocument/prepareRename", "textDocument/rename", "textDocument/semanticTokens/full", "textDocument/inlayHint",
	"textDocument/codeAction", "textDocument/signatureHelp", "textDocument/none", "initialize", "$/cancelRequest",
	"textDocument/didOpen", "textDocument/didChange", "textDocument/didClose", "workspace/didChangeConfiguration",
}

func frame(body string) string { return fmt.Sprintf("Content-Length: %d\r\n\r\n%s", len(body), body) }

// conversation plays messages and returns all that the server says; a fault of ours
// fails the test through its log.
func conversation(t testing.TB, messages []string) []string {
	t.Helper()
	var out bytes.Buffer
	lsp.Serve(strings.NewReader(strings.Join(messages, "")), &out, options(t))
	var bodies []string
	for _, part := range strings.Split(out.String(), "Content-Length: ")[1:] {
		_, body, _ := strings.Cut(part, "\r\n\r\n")
		if !json.Valid([]byte(body)) {
			t.Fatalf("it says what is no JSON: %q", body)
		}
		bodies = append(bodies, body)
	}
	return bodies
}

// Whatever comes in, each request gets one answer, and nothing breaks.
func TestNoMessageBreaksIt(t *testing.T) {
	hello := frame(`{"jsonrpc":"2.0","id":"hello","method":"initialize","params":{"capabilities":{}}}`)
	values := []string{`null`, `0`, `-1`, `1e99`, `"x"`, `[]`, `{}`, `true`, `{"line":0,"character":5}`, `{"line":-3,"character":99999999}`,
		`{"start":{"line":3,"character":1},"end":{"line":0,"character":0}}`, `"file:///t.seam"`, `"untitled:1"`, `"file:%zz"`, `[{"text":"block"}]`,
		`[{"range":{"start":{"line":0,"character":1},"end":{"line":9,"character":9}},"text":"\ud83d"}]`,
		`{"uri":"file:///t.seam","version":1,"text":"block b 2 x 2 finished 4in { section { 1 a at c"}`, `{"uri":"file:///t.seam"}`}
	keys := []string{"textDocument", "position", "range", "context", "newName", "contentChanges", "settings", "only"}
	rapid.Check(t, func(rt *rapid.T) {
		messages := []string{hello, frame(`{"method":"textDocument/didOpen","params":{"textDocument":{"uri":"file:///t.seam","version":1,"text":"` + strings.ReplaceAll(strings.ReplaceAll(boat, `"`, `\"`), "\n", `\n`) + `"}}}`)}
		asked := 1
		for range rapid.IntRange(1, 12).Draw(rt, "messages") {
			var params []string
			for range rapid.IntRange(0, 5).Draw(rt, "params") {
				params = append(params, `"`+rapid.SampledFrom(keys).Draw(rt, "key")+`":`+rapid.SampledFrom(values).Draw(rt, "value"))
			}
			body := "{" + strings.Join(params, ",") + "}"
			if rapid.IntRange(0, 9).Draw(rt, "odd") == 0 {
				body = rapid.SampledFrom(values).Draw(rt, "params")
			}
			method := rapid.SampledFrom(methods).Draw(rt, "method")
			id := ""
			if rapid.Bool().Draw(rt, "request") {
				asked++
				id = fmt.Sprintf(`"id":%d,`, asked)
			}
			m := fmt.Sprintf(`{"jsonrpc":"2.0",%s"method":%q,"params":%s}`, id, method, body)
			messages = append(messages, frame(m))
			if rapid.IntRange(0, 9).Draw(rt, "noise") == 0 {
				messages = append(messages, rapid.SampledFrom([]string{"\r\n", "Content-Length: -4\r\n\r\n", "Content-Length: 2\r\n\r\n{]", "X: y\r\n\r\n", frame("[]"), frame("7"), frame(`{"id":{}}`)}).Draw(rt, "bytes"))
			}
		}
		answers := 0
		for _, said := range conversation(t, messages) {
			var m struct {
				ID     any
				Method string
			}
			if json.Unmarshal([]byte(said), &m) == nil && m.Method == "" && m.ID != nil {
				if _, object := m.ID.(map[string]any); !object {
					answers++
				}
			}
		}
		if answers != asked {
			rt.Fatalf("%d requests, %d answers", asked, answers)
		}
	})
}

// Every request is answered at every place of a text that is cut off anywhere.
func TestHalfATextIsAnswered(t *testing.T) {
	family, _ := families.Source("log_cabin")
	for _, whole := range []string{boat, family} {
		messages := []string{frame(`{"id":0,"method":"initialize","params":{"capabilities":{}}}`)}
		asked := 1
		for cut := 0; cut <= len(whole); cut += 7 {
			text, _ := json.Marshal(whole[:cut])
			messages = append(messages, frame(`{"method":"textDocument/didOpen","params":{"textDocument":{"uri":"file:///t.seam","text":`+string(text)+`}}}`))
			line := strings.Count(whole[:cut], "\n")
			char := cut - strings.LastIndex(whole[:cut], "\n") - 1
			for _, m := range methods[:15] {
				messages = append(messages, frame(fmt.Sprintf(`{"id":1,"method":%q,"params":{"textDocument":{"uri":"file:///t.seam"},"position":{"line":%d,"character":%d},"newName":"fresh","range":{"end":{"line":%[2]d}}}}`, m, line, char)))
				asked++
			}
		}
		answers := 0
		for _, said := range conversation(t, messages) {
			if strings.Contains(said, `"id":`) {
				answers++
			}
			if strings.Contains(said, "-32603") {
				t.Errorf("it answers %s", said)
			}
		}
		if answers != asked {
			t.Errorf("%d requests, %d answers", asked, answers)
		}
	}
}

// Facts are told for the size that the settings name, now or later.
func TestSizeOfTheSettings(t *testing.T) {
	in, send := io.Pipe()
	receive, out := io.Pipe()
	ended := make(chan int, 1)
	go func() { ended <- lsp.Serve(in, out, options(t)); out.Close() }()
	r := wire.NewReader(receive)
	next := func(want string) string {
		for {
			body, err := r.Read()
			if err != nil {
				t.Fatal(err)
			}
			if strings.Contains(string(body), want) {
				return string(body)
			}
		}
	}
	text, _ := json.Marshal(boat)
	go fmt.Fprint(send, frame(`{"id":1,"method":"initialize","params":{"capabilities":{},"initializationOptions":{"size":"6in"}}}`)+
		frame(`{"method":"textDocument/didOpen","params":{"textDocument":{"uri":"file:///t/boat.seam","version":1,"text":`+string(text)+`}}}`))
	next("publishDiagnostics")
	hover := frame(`{"id":2,"method":"textDocument/hover","params":{"textDocument":{"uri":"file:///t/boat.seam"},"position":{"line":10,"character":4}}}`)
	go fmt.Fprint(send, hover)
	if got := next(`"id":2`); !strings.Contains(got, "pier_light at 6 in") {
		t.Errorf("asked for 6in it says %s", got)
	}
	go fmt.Fprint(send, frame(`{"method":"workspace/didChangeConfiguration","params":{"settings":{"seamwright":{"size":"4 in"}}}}`)+hover)
	if got := next(`"id":2`); !strings.Contains(got, "pier_light at 4 in") {
		t.Errorf("asked for 4 in it says %s", got)
	}
	go fmt.Fprint(send, frame(`{"method":"exit"}`))
	if code := <-ended; code != 1 {
		t.Errorf("without a goodbye it ends with %d, want 1", code)
	}
}

// largeText is a pattern of about 1,000 lines.
func largeText() string {
	var b strings.Builder
	b.WriteString("fabric a \"a\" light #ffffff\nfabric b \"b\" dark #000000\n\nblock big 20 x 50 finished 20in {\n")
	for y := 1; y < 50; y++ {
		fmt.Fprintf(&b, "  join (0, %d) -- (20, %d)\n", y, y)
	}
	for y := range 50 {
		fmt.Fprintf(&b, "  section {\n    1 a at (0.5, %d.5)\n", y)
		for x := 1; x < 18; x++ {
			fmt.Fprintf(&b, "    %d %s along (%d, 0) -- (%d.1, 50)\n", x+1, string("ab"[x%2]), x, x)
		}
		b.WriteString("  }\n")
	}
	b.WriteString("}\n")
	return b.String()
}

// Each request of a text of 1,000 lines, right after a key was pressed: nothing is
// remembered of the text.
func BenchmarkAnswers(b *testing.B) {
	text := largeText()
	b.Logf("%d lines", strings.Count(text, "\n"))
	dir := b.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "none"), nil, 0o666); err != nil {
		b.Fatal(err)
	}
	for _, m := range methods[:15] {
		b.Run(strings.TrimPrefix(m, "textDocument/"), func(b *testing.B) {
			in, send := io.Pipe()
			receive, out := io.Pipe()
			done := make(chan int, 1)
			go func() { done <- lsp.Serve(in, out, options(b)) }()
			go fmt.Fprint(send, frame(`{"id":0,"method":"initialize","params":{"capabilities":{}}}`))
			buffer := make([]byte, 1<<20)
			next := func(want string) {
				var got []byte
				for !bytes.Contains(got, []byte(want)) {
					n, err := receive.Read(buffer)
					if err != nil {
						b.Fatal(err)
					}
					if got = append(got, buffer[:n]...); len(got) > 8<<20 {
						got = got[4<<20:]
					}
				}
			}
			next(`"id":0`)
			uri := "file://" + dir + "/big.seam"
			body, _ := json.Marshal(text)
			go fmt.Fprint(send, frame(`{"method":"textDocument/didOpen","params":{"textDocument":{"uri":"`+uri+`","version":1,"text":`+string(body)+`}}}`))
			next("publishDiagnostics")
			change := frame(`{"method":"textDocument/didChange","params":{"textDocument":{"uri":"` + uri + `","version":2},"contentChanges":[{"range":{"start":{"line":2,"character":0},"end":{"line":2,"character":0}},"text":" "}]}}`)
			ask := frame(fmt.Sprintf(`{"id":1,"method":%q,"params":{"textDocument":{"uri":%q},"position":{"line":500,"character":6},"newName":"fresh","range":{"start":{"line":480},"end":{"line":520}}}}`, m, uri))
			b.ResetTimer()
			for range b.N {
				began := time.Now()
				go fmt.Fprint(send, change+ask)
				next(`"id":1`)
				if d := time.Since(began); d > time.Second {
					b.Fatalf("an answer took %v", d)
				}
			}
			b.StopTimer()
			go fmt.Fprint(send, frame(`{"id":2,"method":"shutdown"}`)+frame(`{"method":"exit"}`))
			go io.Copy(io.Discard, receive)
			<-done
		})
	}
}
