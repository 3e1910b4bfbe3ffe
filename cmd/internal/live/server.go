package live

import (
	"bytes"
	"embed"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"seamwright/cmd/internal/files"
)

//go:embed page
var page embed.FS

// Port is tried first where the person has not chosen one, so that a page that
// is still open finds the server again. It has no other meaning.
const Port = 8474

// most is how many connections are served at a time: a browser opens six, and
// some people keep the page open in more than one.
const most = 64

// A Server shows one pattern.
type Server struct {
	listener *listener
	hosts    []string
	slots    chan struct{}

	mu      sync.Mutex
	number  int64   // of the last event
	events  []event // the last of each name, in the order in which they came
	outputs map[string]output
	changed chan struct{} // closed when there is a newer event
}

// An output is a file as it is served, and since which event it has been so.
type output struct {
	data  []byte
	since int64
}

// An event is what the pages are told.
type event struct {
	name   string
	number int64
	data   []byte // as it goes over the stream
}

// Listen opens a port of the loopback address; 0 is [Port], or any that is free.
func Listen(port int) (*Server, error) {
	l, err := (*listener)(nil), error(nil)
	if port == 0 {
		if l, err = listen(Port); err != nil {
			l, err = listen(0)
		}
	} else {
		l, err = listen(port)
	}
	if err != nil {
		return nil, err
	}
	p := strconv.Itoa(l.port)
	return &Server{
		listener: l, hosts: []string{"127.0.0.1:" + p, "localhost:" + p},
		slots: make(chan struct{}, most), changed: make(chan struct{}),
		number: time.Now().UnixMilli(), // a page that is open may have had numbers of the server before this
	}, nil
}

// Address is where the page is.
func (s *Server) Address() string { return "http://" + s.hosts[0] + "/" }

// Serve answers until Close.
func (s *Server) Serve() {
	for {
		c, err := s.listener.accept()
		if err != nil {
			return
		}
		select {
		case s.slots <- struct{}{}:
		default: // too many; the browser tries again
			c.Close()
			continue
		}
		go func() {
			defer func() { <-s.slots }()
			defer c.Close()
			if r := read(c); r != nil {
				s.answer(c, r)
			} else {
				reply(c, "GET", "400 Bad Request", "", nil)
			}
		}()
	}
}

// Close ends Serve. Streams end with their connections.
func (s *Server) Close() { s.listener.close() }

// Show replaces what is shown, but for the outputs.
func (s *Server) Show(shown *Shown) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.tell("build", shown.json())
}

// Ready replaces the outputs. Pages are told since when each is as it is, so that
// they ask for none that they have.
func (s *Server) Ready(outputs []files.Output) {
	s.mu.Lock()
	defer s.mu.Unlock()
	was := s.outputs
	s.outputs = make(map[string]output, len(outputs))
	list := make([][2]any, len(outputs))
	for i, o := range outputs {
		now := output{o.Data, s.number + 1}
		if old, ok := was[o.Path]; ok && bytes.Equal(old.data, o.Data) {
			now = old
		}
		s.outputs[o.Path], list[i] = now, [2]any{o.Path, now.since}
	}
	s.tell("outputs", marshal(list))
}

// Fits replaces what is told of papers.
func (s *Server) Fits(fits []Fit) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.tell("fits", marshal(fits))
}

// Layers replaces what is told of layers of cloth, which pages forget when they are
// shown another good build.
func (s *Server) Layers(all []Thick) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.tell("layers", marshal(all))
}

// tell replaces the event of a name.
func (s *Server) tell(name string, json []byte) {
	s.number++
	b := append([]byte("event: "), name...)
	b = strconv.AppendInt(append(b, "\nid: "...), s.number, 10)
	b = append(b, "\ndata: "...)
	b = append(b, bytes.ReplaceAll(json, []byte("\n"), nil)...) // texts in JSON hold no line breaks
	s.events = slices.DeleteFunc(s.events, func(e event) bool { return e.name == name })
	s.events = append(s.events, event{name, s.number, append(b, "\n\n"...)})
	close(s.changed)
	s.changed = make(chan struct{})
}

// since returns the events after a number, and a channel that is closed when
// there are more.
func (s *Server) since(number int64) (data []byte, last int64, changed chan struct{}) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, e := range s.events {
		if e.number > number {
			data = append(data, e.data...)
		}
	}
	return data, s.number, s.changed
}

// answer serves the page, the stream and the outputs.
func (s *Server) answer(c conn, r *request) {
	if !r.own(s.hosts) {
		reply(c, r.method, "403 Forbidden", "", []byte("This address is for the page of `seamwright watch` only.\n"))
		return
	}
	if r.method != "GET" && r.method != "HEAD" {
		reply(c, r.method, "405 Method Not Allowed", "", nil)
		return
	}
	name := strings.TrimPrefix(r.path, "/")
	if name == "" {
		name = "index.html"
	}
	if name == "events" && r.method == "GET" {
		s.stream(c)
		return
	}
	if path, ok := strings.CutPrefix(name, "out/"); ok {
		s.mu.Lock()
		file, ok := s.outputs[path]
		s.mu.Unlock()
		if ok {
			replyWith(c, r.method, "200 OK", kind(path), outputPolicy, file.data)
			return
		}
	} else if data, err := page.ReadFile("page/" + name); err == nil {
		reply(c, r.method, "200 OK", kind(name), data)
		return
	}
	reply(c, r.method, "404 Not Found", "", nil)
}

func kind(name string) string {
	switch name[strings.LastIndexByte(name, '.')+1:] {
	case "html":
		return "text/html; charset=utf-8"
	case "js":
		return "text/javascript; charset=utf-8"
	case "css":
		return "text/css; charset=utf-8"
	case "svg":
		return "image/svg+xml"
	case "pdf":
		return "application/pdf"
	case "json":
		return "application/json"
	}
	return "text/plain; charset=utf-8"
}

// guards are sent with every answer. The page runs only its own script, asks
// nobody else for anything, and stands in no other page. Where an output is
// looked at by itself it may do nothing at all, but it styles itself.
const guards = "Cache-Control: no-store\r\n" +
	"X-Content-Type-Options: nosniff\r\n" +
	"Referrer-Policy: no-referrer\r\n" +
	"X-Frame-Options: DENY\r\n" +
	"Cross-Origin-Resource-Policy: same-origin\r\n" +
	"Cross-Origin-Opener-Policy: same-origin\r\n"

const (
	pagePolicy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; " +
		"base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
	outputPolicy = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; sandbox"
)

func head(status, kind, policy string) []byte {
	b := append([]byte("HTTP/1.1 "), status...)
	b = append(b, "\r\nConnection: close\r\n"+guards+"Content-Security-Policy: "...)
	b = append(b, policy...)
	if kind == "" {
		kind = "text/plain; charset=utf-8"
	}
	return append(append(b, "\r\nContent-Type: "...), kind...)
}

func reply(c conn, method, status, kind string, data []byte) {
	replyWith(c, method, status, kind, pagePolicy, data)
}

func replyWith(c conn, method, status, kind, policy string, data []byte) {
	c.SetWriteDeadline(time.Now().Add(writeIn))
	b := append(head(status, kind, policy), "\r\nContent-Length: "...)
	b = append(strconv.AppendInt(b, int64(len(data)), 10), "\r\n\r\n"...)
	if method != "HEAD" {
		b = append(b, data...)
	}
	c.Write(b) // a page that has gone away needs no answer
}

// stream tells a page what is shown, again whenever it changes, until the page
// is closed. Between events the stream has no deadline and costs nothing.
func (s *Server) stream(c conn) {
	gone := make(chan struct{})
	c.SetReadDeadline(time.Time{})
	go func() { // a browser sends nothing more; reading ends when it goes away
		defer close(gone)
		for b := make([]byte, 64); ; {
			if _, err := c.Read(b); err != nil {
				return
			}
		}
	}()
	send := append(head("200 OK", "text/event-stream", pagePolicy), "\r\n\r\nretry: 250\n\n"...)
	for sent := int64(0); ; {
		data, last, changed := s.since(sent)
		sent = last
		if send = append(send, data...); len(send) > 0 {
			c.SetWriteDeadline(time.Now().Add(writeIn))
			if _, err := c.Write(send); err != nil {
				return
			}
			c.SetWriteDeadline(time.Time{})
			send = nil
		}
		select {
		case <-changed:
		case <-gone:
			return
		}
	}
}
