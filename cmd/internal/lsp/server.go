package lsp

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"runtime/debug"
	"time"

	"seamwright/cmd/internal/lsp/wire"
	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// Options are what the server knows of the rest of the program.
type Options struct {
	// Check compiles a text as the verb check does, its sheets included.
	Check func(src *problem.Source, load compiler.Loader) (*pattern.Pattern, []problem.Problem)
	// Loader returns a loader of the texts that a pattern uses, those that the
	// editor holds before those on the disk. It is closed when it is done with.
	Loader func(held func(path string) (string, bool)) Loader
	// Codes explains all problems.
	Codes   func() []problem.Info
	Version string
	Log     io.Writer // for faults of ours
}

// A Loader finds the texts that a pattern uses.
type Loader interface {
	compiler.Loader
	Texts() []*problem.Source // those found
	Close()
}

// Serve answers the editor that writes to in and reads from out, until it says
// exit or ends the stream. It returns the exit code that the protocol wants: 0
// after a shutdown, else 1.
func Serve(in io.Reader, out io.Writer, o Options) int {
	s := &server{Options: o, out: out, docs: map[string]*document{}, byName: map[string]*document{},
		told: map[string]string{}, done: make(chan *checked, 1)}
	incoming := make(chan received)
	go receive(wire.NewReader(bufio.NewReader(in)), incoming)
	for !s.ended {
		select {
		case m, more := <-incoming:
			if !more {
				return s.exitCode()
			}
			s.take(m)
		case c := <-s.done:
			s.guard(func() { s.finish(c) })
		case <-s.due():
			s.guard(s.check)
		}
	}
	return s.exitCode()
}

// A server is one conversation.
type server struct {
	Options
	out    io.Writer
	docs   map[string]*document // open ones, by URI
	byName map[string]*document // the same by the name of their source

	state  state
	ended  bool
	utf8   bool
	client wire.Initialize
	size   string // the finished size that facts are told for, as the editor's settings say

	checking *document // being compiled
	done     chan *checked
	told     map[string]string // the diagnostics that the editor has, by URI
	asked    int               // requests of ours
	families string            // the folder of the shipped families, once written
}

type state uint8

const (
	fresh state = iota
	running
	stopped
)

func (s *server) exitCode() int {
	if s.state == stopped {
		return 0
	}
	return 1
}

// A received is a message or the reason why there is none.
type received struct {
	body []byte
	err  error
}

func receive(r *wire.Reader, to chan<- received) {
	defer close(to)
	for {
		body, err := r.Read()
		if err != nil && !errors.Is(err, wire.ErrFrame) {
			return
		}
		to <- received{body, err}
	}
}

// take answers one message.
func (s *server) take(r received) {
	var m wire.Message
	if r.err == nil {
		r.err = json.Unmarshal(r.body, &m)
	}
	switch {
	case r.err != nil:
		s.refuse(json.RawMessage("null"), &wire.Error{Code: wire.ParseError, Message: r.err.Error()})
	case m.Method == "" && m.ID == nil:
		s.refuse(json.RawMessage("null"), &wire.Error{Code: wire.InvalidRequest, Message: "a message has a method"})
	case m.Method == "": // the answer to a request of ours, which told all by being asked
	case m.ID == nil || string(m.ID) == "null":
		s.guard(func() { s.notice(&m) })
	default:
		s.request(&m)
	}
}

func (s *server) request(m *wire.Message) {
	var result any
	fault := &wire.Error{Code: wire.InternalError, Message: "a fault of the editor server; its log says more"}
	s.guard(func() { result, fault = s.answer(m) })
	if fault != nil {
		s.refuse(m.ID, fault)
		return
	}
	s.send(wire.Answer{Version: wire.Version, ID: m.ID, Result: result})
}

func (s *server) refuse(id json.RawMessage, e *wire.Error) {
	s.send(wire.Refusal{Version: wire.Version, ID: id, Error: *e})
}

func (s *server) notify(method string, params any) {
	s.send(wire.Outgoing{Version: wire.Version, Method: method, Params: params})
}

// ask sends a request whose answer changes nothing.
func (s *server) ask(method string, params any) {
	s.asked++
	s.send(wire.Outgoing{Version: wire.Version, ID: fmt.Sprint("seamwright-", s.asked), Method: method, Params: params})
}

func (s *server) send(message any) {
	if err := wire.Write(s.out, message); err != nil {
		s.ended = true // nobody listens
	}
}

// guard keeps a fault of ours from ending the conversation.
func (s *server) guard(do func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Fprintf(s.Log, "seamwright lsp: please report this: %v\n%s", r, debug.Stack())
		}
	}()
	do()
}

// due returns a channel that fires when the next text is to be checked, nil if
// none is or one is being checked.
func (s *server) due() <-chan time.Time {
	d := s.next()
	if d == nil || s.checking != nil {
		return nil
	}
	return time.After(time.Until(d.due))
}
