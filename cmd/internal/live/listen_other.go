//go:build !unix

package live

import "net"

type listener struct {
	net.Listener
	port int
}

func listen(port int) (*listener, error) {
	l, err := net.ListenTCP("tcp4", &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: port})
	if err != nil {
		return nil, err
	}
	return &listener{l, l.Addr().(*net.TCPAddr).Port}, nil
}

func (l *listener) accept() (conn, error) { return l.Accept() }

func (l *listener) close() { l.Close() }
