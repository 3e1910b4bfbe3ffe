//go:build unix

package live

import (
	"os"
	"syscall"
	"time"
)

// A listener accepts connections on the loopback address. The sockets are made
// here because the package net, once linked, loads the C library at every start
// of the program; the runtime waits for them all the same.
type listener struct {
	file *os.File
	port int
}

// backlog is how many connections may wait; a browser opens six.
const backlog = 32

// listen takes a port of the loopback address; 0 is any that is free.
func listen(port int) (*listener, error) {
	fd, err := syscall.Socket(syscall.AF_INET, syscall.SOCK_STREAM, 0)
	if err != nil {
		return nil, os.NewSyscallError("socket", err)
	}
	syscall.CloseOnExec(fd)
	if err := bind(fd, port); err != nil {
		syscall.Close(fd)
		return nil, err
	}
	name, err := syscall.Getsockname(fd)
	at, ok := name.(*syscall.SockaddrInet4)
	if err != nil || !ok {
		syscall.Close(fd)
		return nil, os.NewSyscallError("getsockname", err)
	}
	return &listener{os.NewFile(uintptr(fd), "listener"), at.Port}, nil
}

func bind(fd, port int) error {
	// a server that was just ended must not keep its port from the next one
	if err := syscall.SetsockoptInt(fd, syscall.SOL_SOCKET, syscall.SO_REUSEADDR, 1); err != nil {
		return os.NewSyscallError("setsockopt", err)
	}
	if err := syscall.Bind(fd, &syscall.SockaddrInet4{Port: port, Addr: [4]byte{127, 0, 0, 1}}); err != nil {
		return os.NewSyscallError("bind", err)
	}
	if err := syscall.Listen(fd, backlog); err != nil {
		return os.NewSyscallError("listen", err)
	}
	return os.NewSyscallError("setnonblock", syscall.SetNonblock(fd, true))
}

// accept waits for a connection; after close it fails.
func (l *listener) accept() (conn, error) {
	raw, err := l.file.SyscallConn()
	if err != nil {
		return nil, err
	}
	fd := -1
	var fault error
	err = raw.Read(func(listening uintptr) bool {
		for {
			fd, _, fault = syscall.Accept(int(listening))
			switch fault {
			case syscall.EINTR, syscall.ECONNABORTED:
			case syscall.EAGAIN:
				return false
			case syscall.EMFILE, syscall.ENFILE:
				time.Sleep(10 * time.Millisecond) // until some connection is closed
			default:
				return true
			}
		}
	})
	if err == nil {
		err = fault
	}
	if err != nil {
		return nil, err
	}
	syscall.CloseOnExec(fd)
	syscall.SetsockoptInt(fd, syscall.IPPROTO_TCP, syscall.TCP_NODELAY, 1) // else it is only slower
	if err := syscall.SetNonblock(fd, true); err != nil {
		syscall.Close(fd)
		return nil, err
	}
	return os.NewFile(uintptr(fd), "connection"), nil
}

func (l *listener) close() { l.file.Close() }
