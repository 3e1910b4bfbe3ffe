package live

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"testing"
	"time"

	"seamwright/cmd/internal/files"
	"seamwright/lang/problem"
)

// The server is asked by the client of the standard library, and by hand where
// that would not send what is tried.

func serve(t *testing.T) *Server {
	t.Helper()
	s, err := Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	done := make(chan struct{})
	go func() { s.Serve(); close(done) }()
	t.Cleanup(func() { s.Close(); <-done })
	return s
}

func (s *Server) get(t *testing.T, path string, fields ...string) (status int, head http.Header, body string) {
	t.Helper()
	r, err := http.NewRequest("GET", s.Address()+strings.TrimPrefix(path, "/"), nil)
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i < len(fields); i += 2 {
		if r.Header.Set(fields[i], fields[i+1]); fields[i] == "Host" {
			r.Host = fields[i+1]
		}
	}
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	data, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer.StatusCode, answer.Header, string(data)
}

func TestServesThePageAndTheOutputs(t *testing.T) {
	s := serve(t)
	s.Ready([]files.Output{{Path: "boat/8in/sheet-1.svg", Data: []byte("<svg/>")}, {Path: "boat/8in/sheets.pdf", Data: []byte("%PDF")}})
	for path, want := range map[string]string{
		"/": "text/html; charset=utf-8", "/main.js": "text/javascript; charset=utf-8", "/page.css": "text/css; charset=utf-8",
		"/out/boat/8in/sheet-1.svg?3": "image/svg+xml", "/out/boat/8in/sheets.pdf": "application/pdf",
	} {
		status, head, body := s.get(t, path)
		if status != 200 || head.Get("Content-Type") != want || body == "" {
			t.Errorf("%s: %d, %s, %d bytes", path, status, head.Get("Content-Type"), len(body))
		}
		policy := head.Get("Content-Security-Policy")
		if !strings.HasPrefix(policy, "default-src 'none'") || strings.Contains(policy, "script-src 'unsafe") || !strings.Contains(policy, "frame-ancestors 'none'") {
			t.Errorf("%s: policy %q", path, policy)
		}
		if head.Get("Cache-Control") != "no-store" || head.Get("X-Content-Type-Options") != "nosniff" || head.Get("Access-Control-Allow-Origin") != "" {
			t.Errorf("%s: %v", path, head)
		}
	}
	// an output that does not come again is served no more
	s.Ready([]files.Output{{Path: "other.svg", Data: []byte("<svg/>")}})
	for _, path := range []string{
		"/out/boat/8in/sheet-1.svg", "/out/", "/out/../server.go", "/page", "/page/index.html", "/../go.mod", "/..%2fgo.mod", "/etc/passwd", "/out//etc/passwd",
		"/main.js/", "/nothing", "/.", "/out/other.svg/..",
	} {
		if status, _, body := s.get(t, path); status != 404 || body != "" {
			t.Errorf("%s: %d, %q", path, status, body)
		}
	}
}

// Whatever another site can make a browser send is refused: DNS rebinding shows
// in Host, scripts in Origin, and pictures, frames and links in Sec-Fetch-Site
// (Fetch Metadata Request Headers, W3C).
func TestRefusesOtherSites(t *testing.T) {
	s := serve(t)
	s.Show(&Shown{Pattern: []byte(`{"secret":1}`)})
	s.Ready([]files.Output{{Path: "a.svg", Data: []byte("secret")}})
	port := s.hosts[0][strings.IndexByte(s.hosts[0], ':'):]
	for _, fields := range [][]string{
		{"Host", "evil.example"}, {"Host", "evil.example" + port}, {"Host", "127.0.0.1"}, {"Host", "127.0.0.1.evil.example" + port},
		{"Host", "127.0.0.1:1"}, {"Host", "192.168.0.7" + port},
		{"Origin", "http://evil.example"}, {"Origin", "null"}, {"Origin", "https://" + s.hosts[0]}, {"Origin", "http://" + s.hosts[0] + "0"},
		{"Origin", "http://localhost" + port}, // of the page under its other name: another origin
		{"Sec-Fetch-Site", "cross-site"}, {"Sec-Fetch-Site", "same-site"}, {"Sec-Fetch-Site", "what"},
	} {
		for _, path := range []string{"/", "/events", "/out/a.svg"} {
			if status, _, body := s.get(t, path, fields...); status != 403 || strings.Contains(body, "secret") {
				t.Errorf("%s with %v: %d", path, fields, status)
			}
		}
	}
	for _, fields := range [][]string{
		{}, {"Host", "localhost" + port}, {"Origin", "http://" + s.hosts[0]}, {"Sec-Fetch-Site", "none"}, {"Sec-Fetch-Site", "same-origin"},
	} {
		if status, _, _ := s.get(t, "/out/a.svg", fields...); status != 200 {
			t.Errorf("its own page with %v: %d", fields, status)
		}
	}
}

// raw sends bytes and returns the first line of what comes back.
func (s *Server) raw(t *testing.T, text string) string {
	t.Helper()
	c, err := net.Dial("tcp", s.hosts[0])
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	c.SetDeadline(time.Now().Add(20 * time.Second))
	c.Write([]byte(text))
	line, _ := bufio.NewReader(c).ReadString('\n')
	return strings.TrimSpace(line)
}

func TestOddRequests(t *testing.T) {
	s := serve(t)
	host := "\r\nHost: " + s.hosts[0]
	for text, want := range map[string]string{
		"HEAD / HTTP/1.1" + host + "\r\n\r\n":                                         "200",
		"GET / HTTP/1.0" + host + "\r\n\r\n":                                          "200",
		"GET / HTTP/1.1\r\n\r\n":                                                      "403", // without a host
		"POST / HTTP/1.1" + host + "\r\nContent-Length: 3\r\n\r\nabc":                 "405",
		"OPTIONS / HTTP/1.1" + host + "\r\n\r\n":                                      "405",
		"GET http://evil.example/ HTTP/1.1" + host + "\r\n\r\n":                       "404",
		"GET / HTTP/1.1" + host + host + "\r\n\r\n":                                   "400", // which of them?
		"GET / HTTP/1.1" + host + "\r\nHost : evil\r\n\r\n":                           "400",
		"GET / HTTP/1.1" + host + "\r\n folded\r\n\r\n":                               "400",
		"GET / HTTP/2.0" + host + "\r\n\r\n":                                          "400",
		"GET  / HTTP/1.1" + host + "\r\n\r\n":                                         "400",
		"\r\n\r\n":                                                                    "400",
		"\x16\x03\x01\x00\xa5\x01\r\n\r\n":                                            "400", // TLS
		"GET / HTTP/1.1" + host + "\r\nA: " + strings.Repeat("x", 9<<10) + "\r\n\r\n": "400",
	} {
		if got := s.raw(t, text); !strings.Contains(got, " "+want+" ") {
			t.Errorf("%.60q: %q, want %s", text, got, want)
		}
	}
}

// next reads one event of a stream.
func next(t *testing.T, r *bufio.Reader) map[string]any {
	t.Helper()
	for {
		line, err := r.ReadString('\n')
		if err != nil {
			t.Fatal(err)
		}
		if data, ok := strings.CutPrefix(line, "data: {"); ok { // of a build
			data = "{" + data
			var v map[string]any
			if err := json.Unmarshal([]byte(data), &v); err != nil {
				t.Fatalf("%v in %s", err, data)
			}
			return v
		}
	}
}

func TestStream(t *testing.T) {
	s := serve(t)
	answer, err := http.Get(s.Address() + "events")
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	if got := answer.Header.Get("Content-Type"); got != "text/event-stream" {
		t.Errorf("kind %q", got)
	}
	r := bufio.NewReader(answer.Body)
	if line, _ := r.ReadString('\n'); line != "retry: 250\n" {
		t.Errorf("first %q", line)
	}
	nasty := "a\nb\r\n\u2028</script>\"data: \x00"
	src := &problem.Source{Name: "boat.seam", Text: nasty}
	s.Show(&Shown{Good: false, File: nasty, Sources: []Text{{Text: nasty}}, Pattern: []byte("{\"a\":\n[1,\n2]}\n"),
		Problems: []problem.Problem{{Code: "G102", Message: nasty, At: problem.Place{Source: src}, Drawn: &problem.Drawn{Unit: "boat", Points: [][2]float64{{1, 2}}}}}})
	v := next(t, r)
	if v["file"] != nasty || fmt.Sprint(v["pattern"]) != "map[a:[1 2]]" || v["sources"].([]any)[0].(map[string]any)["text"] != nasty {
		t.Errorf("event %v", v)
	}
	if got := fmt.Sprint(v["problems"].(map[string]any)["problems"].([]any)[0].(map[string]any)["drawn"]); got != "map[points:[[1 2]] unit:boat]" {
		t.Errorf("drawn %s", got)
	}
	// a page that comes later is told the newest, and all are told what follows
	for i := range 3 {
		s.Show(&Shown{File: fmt.Sprint(i)})
		s.Ready([]files.Output{{Path: fmt.Sprint(i)}})
	}
	late, err := http.Get(s.Address() + "events")
	if err != nil {
		t.Fatal(err)
	}
	defer late.Body.Close()
	l := bufio.NewReader(late.Body)
	if v := next(t, l); v["file"] != "2" {
		t.Errorf("a late page is told %v", v["file"])
	}
	got := ""
	for range 4 { // the rest of that event, and the next
		line, _ := l.ReadString('\n')
		got += line
	}
	if !strings.Contains(got, "event: outputs\n") || !strings.HasSuffix(got, fmt.Sprintf("data: [[\"2\",%d]]\n", s.number)) {
		t.Errorf("of the outputs a late page is told %q", got)
	}
	for v["file"] != "2" {
		v = next(t, r)
	}
}

// A page asks for a picture again only where it is told another number for it.
func TestSince(t *testing.T) {
	s := serve(t)
	told := func() (list [][2]any) {
		answer, err := http.Get(s.Address() + "events")
		if err != nil {
			t.Fatal(err)
		}
		defer answer.Body.Close()
		for r := bufio.NewReader(answer.Body); ; {
			line, err := r.ReadString('\n')
			if err != nil {
				t.Fatal(err)
			}
			if data, ok := strings.CutPrefix(line, "data: "); ok {
				if err := json.Unmarshal([]byte(data), &list); err != nil {
					t.Fatal(err)
				}
				return list
			}
		}
	}
	s.Ready([]files.Output{{Path: "a", Data: []byte("1")}, {Path: "b", Data: []byte("1")}})
	first := told()
	s.Ready([]files.Output{{Path: "a", Data: []byte("1")}, {Path: "b", Data: []byte("2")}, {Path: "c", Data: []byte("1")}})
	then := told()
	if len(then) != 3 || then[0] != first[0] || then[1][1].(float64) <= first[1][1].(float64) {
		t.Errorf("told %v, then %v", first, then)
	}
}

// Pages that go away leave nothing behind, and too many do no harm.
func TestManyStreams(t *testing.T) {
	s := serve(t)
	for range 3 {
		var open []net.Conn
		for range most + 40 {
			c, err := net.Dial("tcp", s.hosts[0])
			if err != nil {
				t.Fatal(err)
			}
			c.Write([]byte("GET /events HTTP/1.1\r\nHost: " + s.hosts[0] + "\r\n\r\n"))
			open = append(open, c)
		}
		s.Show(&Shown{})
		for _, c := range open {
			c.Close()
		}
		for late := time.Now().Add(10 * time.Second); len(s.slots) > 0; time.Sleep(time.Millisecond) {
			if time.Now().After(late) {
				t.Fatalf("%d connections are still served", len(s.slots))
			}
		}
	}
	if status, _, _ := s.get(t, "/"); status != 200 {
		t.Error(status)
	}
}

func TestPorts(t *testing.T) {
	one := serve(t)
	two := serve(t) // the usual port is taken
	if one.Address() == two.Address() {
		t.Error("two servers on one port")
	}
	if s, err := Listen(two.listener.port); err == nil {
		s.Close()
		t.Error("a port that is taken was given")
	}
	if _, err := net.DialTimeout("tcp", fmt.Sprintf("[::1]:%d", one.listener.port), time.Second); err == nil {
		t.Error("it listens on another address too")
	}
	port := one.listener.port
	one.Close()
	for late := time.Now().Add(5 * time.Second); ; time.Sleep(time.Millisecond) { // an open page may hold it for a moment
		again, err := Listen(port)
		if err == nil {
			again.Close()
			break
		}
		if time.Now().After(late) {
			t.Fatalf("the port is not free again: %v", err)
		}
	}
}
