package lsp

import (
	"encoding/json"

	"seamwright/cmd/internal/lsp/wire"
)

// answer answers a request. A nil result is an answer too: there is nothing.
func (s *server) answer(m *wire.Message) (any, *wire.Error) {
	switch {
	case m.Method == "initialize" && s.state == fresh:
		return s.initialize(m.Params)
	case s.state == fresh:
		return nil, &wire.Error{Code: wire.NotInitialized, Message: "the editor has not said initialize"}
	case s.state == stopped || m.Method == "initialize":
		return nil, &wire.Error{Code: wire.InvalidRequest, Message: "not now"}
	case m.Method == "shutdown":
		s.state = stopped
		return nil, nil
	}
	handle := requestNamed(m.Method)
	if handle == nil {
		return nil, &wire.Error{Code: wire.MethodNotFound, Message: "there is no " + m.Method + " here"}
	}
	var at wire.At
	if err := json.Unmarshal(m.Params, &at); err != nil {
		return nil, &wire.Error{Code: wire.InvalidParams, Message: err.Error()}
	}
	d := s.docs[at.TextDocument.URI]
	if d == nil {
		return nil, nil // closed meanwhile, or never open
	}
	return handle(s, d, &at)
}

type handler func(*server, *document, *wire.At) (any, *wire.Error)

// requestNamed returns what answers a request about a document, or nil.
func requestNamed(method string) handler {
	switch method {
	case "textDocument/formatting", "textDocument/rangeFormatting":
		return (*server).format
	case "textDocument/documentSymbol":
		return (*server).symbols
	case "textDocument/foldingRange":
		return (*server).folds
	case "textDocument/semanticTokens/full":
		return (*server).colors
	case "textDocument/inlayHint":
		return (*server).hints
	case "textDocument/codeAction":
		return (*server).actions
	case "textDocument/signatureHelp":
		return (*server).signature
	case "textDocument/hover":
		return (*server).hover
	case "textDocument/completion":
		return (*server).complete
	case "textDocument/definition":
		return (*server).define
	case "textDocument/references":
		return (*server).references
	case "textDocument/documentHighlight":
		return (*server).highlight
	case "textDocument/prepareRename":
		return (*server).prepareRename
	case "textDocument/rename":
		return (*server).rename
	}
	return nil
}

// notice takes a notification. What is not known is passed over, as the protocol
// wants.
func (s *server) notice(m *wire.Message) {
	switch m.Method {
	case "exit":
		s.ended = true
		return
	case "initialized":
		s.watchFiles()
		return
	}
	if s.state != running {
		return
	}
	switch m.Method {
	case "textDocument/didOpen":
		var p wire.DidOpen
		if json.Unmarshal(m.Params, &p) == nil {
			s.open(p.TextDocument)
		}
	case "textDocument/didChange":
		var p wire.DidChange
		if json.Unmarshal(m.Params, &p) == nil {
			s.change(&p)
		}
	case "textDocument/didClose":
		var p wire.At
		if json.Unmarshal(m.Params, &p) == nil {
			s.close(p.TextDocument.URI)
		}
	case "workspace/didChangeConfiguration":
		var p wire.DidChangeConfiguration
		if json.Unmarshal(m.Params, &p) == nil {
			s.configure(p.Settings)
		}
	case "workspace/didChangeWatchedFiles", "textDocument/didSave":
		s.checkAll()
	}
}

func (s *server) initialize(params json.RawMessage) (any, *wire.Error) {
	if err := json.Unmarshal(params, &s.client); err != nil {
		return nil, &wire.Error{Code: wire.InvalidParams, Message: err.Error()}
	}
	s.state = running
	encoding := "utf-16"
	for _, e := range s.client.Capabilities.General.PositionEncodings {
		if e == "utf-8" {
			encoding, s.utf8 = e, true
		}
	}
	s.configure(s.client.InitializationOptions)
	type object = map[string]any
	return object{
		"serverInfo": object{"name": "seamwright", "version": s.Version},
		"capabilities": object{
			"positionEncoding":                encoding,
			"textDocumentSync":                object{"openClose": true, "change": 2, "save": object{}},
			"documentFormattingProvider":      true,
			"documentRangeFormattingProvider": true,
			"documentSymbolProvider":          true,
			"foldingRangeProvider":            true,
			"hoverProvider":                   true,
			"inlayHintProvider":               true,
			"codeActionProvider":              object{"codeActionKinds": []string{"quickfix"}},
			"signatureHelpProvider":           object{"triggerCharacters": []string{"(", ","}},
			"semanticTokensProvider":          object{"legend": object{"tokenTypes": tokenTypes, "tokenModifiers": tokenModifiers}, "full": true},
			"completionProvider":              object{"triggerCharacters": []string{".", "(", "\"", "/"}},
			"definitionProvider":              true,
			"referencesProvider":              true,
			"documentHighlightProvider":       true,
			"renameProvider":                  object{"prepareProvider": true},
		},
	}, nil
}

// configure takes the editor's settings, bare or under the program's name.
func (s *server) configure(settings json.RawMessage) {
	var own struct {
		wire.Settings
		Seamwright *wire.Settings `json:"seamwright"`
	}
	if len(settings) == 0 || json.Unmarshal(settings, &own) != nil {
		return // none, or not for us
	}
	s.size = own.Size
	if own.Seamwright != nil {
		s.size = own.Seamwright.Size
	}
}

// watchFiles asks the editor to tell of patterns that change on the disk.
func (s *server) watchFiles() {
	if s.state != running || !s.client.Capabilities.Workspace.DidChangeWatchedFiles.DynamicRegistration {
		return
	}
	type object = map[string]any
	s.ask("client/registerCapability", object{"registrations": []object{{
		"id": "files", "method": "workspace/didChangeWatchedFiles",
		"registerOptions": object{"watchers": []object{{"globPattern": "**/*.seam"}}},
	}}})
}
