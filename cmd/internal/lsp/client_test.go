package lsp_test

import (
	"context"
	"io"
	"strings"
	"testing"
	"time"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"

	"seamwright/cmd/internal/files"
	"seamwright/cmd/internal/lsp"
	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/compiler/rules"
	"seamwright/emit"
	"seamwright/lang/families"
	"seamwright/lang/problem"
)

// The server is driven by a client library that is not ours, go.lsp.dev/protocol:
// its types are made from the protocol's own model, so what it can't read is wrong.

func options(t testing.TB) lsp.Options {
	return lsp.Options{
		Check: func(src *problem.Source, load compiler.Loader) (*pattern.Pattern, []problem.Problem) {
			p, ps := compiler.Compile(src, load)
			if p != nil {
				ps = append(ps, emit.Check(p, emit.Options{})...)
			}
			return p, ps
		},
		Loader: func(held func(string) (string, bool)) lsp.Loader {
			return &files.Loader{Family: families.Source, Families: families.Names, Held: held}
		},
		Codes: rules.Codes, Version: "test", Log: logged{t},
	}
}

// A logged log is a fault of ours.
type logged struct{ t testing.TB }

func (l logged) Write(b []byte) (int, error) {
	l.t.Errorf("the server says: %s", b)
	return len(b), nil
}

// An editor is the other side of a conversation.
type editor struct {
	protocol.UnimplementedClient
	t       testing.TB
	ctx     context.Context
	server  protocol.Server
	encoded protocol.PositionEncodingKind
	said    protocol.ServerCapabilities
	told    chan *protocol.PublishDiagnosticsParams
	ended   chan int
}

func (e *editor) PublishDiagnostics(_ context.Context, p *protocol.PublishDiagnosticsParams) error {
	e.told <- p
	return nil
}

func (e *editor) Registration(context.Context, *protocol.RegistrationParams) error { return nil }

type pipe struct {
	io.Reader
	io.WriteCloser
}

func start(t testing.TB, encodings ...protocol.PositionEncodingKind) *editor {
	t.Helper()
	fromEditor, toServer := io.Pipe()
	fromServer, toEditor := io.Pipe()
	e := &editor{t: t, told: make(chan *protocol.PublishDiagnosticsParams, 100), ended: make(chan int, 1)}
	go func() {
		e.ended <- lsp.Serve(fromEditor, toEditor, options(t))
		toEditor.Close()
	}()
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	var conn jsonrpc2.Conn
	e.ctx, conn, e.server = protocol.NewClient(ctx, e, jsonrpc2.NewStream(pipe{fromServer, toServer}))
	t.Cleanup(func() {
		if err := e.server.Shutdown(e.ctx); err != nil {
			t.Errorf("shutdown: %v", err)
		}
		if err := e.server.Exit(e.ctx); err != nil {
			t.Errorf("exit: %v", err)
		}
		if code := <-e.ended; code != 0 {
			t.Errorf("the server ends with %d", code)
		}
		conn.Close()
		cancel()
	})
	yes := true
	p := &protocol.InitializeParams{Capabilities: protocol.ClientCapabilities{
		General: &protocol.GeneralClientCapabilities{PositionEncodings: encodings},
		TextDocument: &protocol.TextDocumentClientCapabilities{
			Completion: &protocol.CompletionClientCapabilities{
				CompletionItem: &protocol.ClientCompletionItemOptions{SnippetSupport: &yes}},
			DocumentSymbol: &protocol.DocumentSymbolClientCapabilities{HierarchicalDocumentSymbolSupport: &yes},
		},
	}}
	r, err := e.server.Initialize(e.ctx, p)
	if err != nil {
		t.Fatal(err)
	}
	e.said = r.Capabilities
	e.encoded = r.Capabilities.PositionEncoding
	if err := e.server.Initialized(e.ctx, &protocol.InitializedParams{}); err != nil {
		t.Fatal(err)
	}
	return e
}

func (e *editor) open(path, text string) uri.URI {
	e.t.Helper()
	u := uri.File(path)
	p := &protocol.DidOpenTextDocumentParams{TextDocument: protocol.TextDocumentItem{URI: u, LanguageID: "seamwright", Version: 1, Text: text}}
	if err := e.server.DidOpen(e.ctx, p); err != nil {
		e.t.Fatal(err)
	}
	return u
}

func (e *editor) change(u uri.URI, version int32, changes ...protocol.TextDocumentContentChangeEvent) {
	e.t.Helper()
	p := &protocol.DidChangeTextDocumentParams{ContentChanges: changes}
	p.TextDocument.URI, p.TextDocument.Version = u, version
	if err := e.server.DidChange(e.ctx, p); err != nil {
		e.t.Fatal(err)
	}
}

func (e *editor) replace(u uri.URI, version int32, text string) {
	e.t.Helper()
	e.change(u, version, &protocol.TextDocumentContentChangeWholeDocument{Text: text})
}

// problems waits for the problems of a version of a document; any version if 0.
func (e *editor) problems(u uri.URI, version int32) []protocol.Diagnostic {
	e.t.Helper()
	late := time.After(20 * time.Second)
	for {
		select {
		case p := <-e.told:
			v, _ := p.Version.Get()
			if p.URI == u && (version == 0 || v == version) {
				return p.Diagnostics
			}
		case <-late:
			e.t.Fatalf("nothing is told of %s, version %d", u, version)
		}
	}
}

// at is the place of the first occurrence of words in a text of ASCII, n bytes on.
func at(text, words string, n int) protocol.Position {
	i := strings.Index(text, words)
	if i < 0 {
		panic("no " + words)
	}
	before := text[:i+n]
	line := strings.Count(before, "\n")
	return protocol.Position{Line: uint32(line), Character: uint32(len(before) - strings.LastIndex(before, "\n") - 1)}
}

func on(u uri.URI, p protocol.Position) protocol.TextDocumentPositionParams {
	return protocol.TextDocumentPositionParams{TextDocument: protocol.TextDocumentIdentifier{URI: u}, Position: p}
}

const boat = `pattern "Pier Light" { edition 1 }

fabric lamp     "lamp"     light  #f2dca0
fabric night    "night"    dark   #22384a

/// A lamp by night.
block pier_light 4 x 4 finished 4in, 6in {
  let deck = 2
  section A {
    1 lamp  at (2, 3)
    2 night along (1.25, deck) -- (1.25, 4)
  }
  section B {
    1 lamp  at (2, 1)
    2 night along (0, 1 / 2) -- (4, 1)
  }
  join (0, deck) -- (4, deck)
}
`
