package main

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"seamwright/cmd/internal/live"
)

func BenchmarkRebuild(b *testing.B) {
	for _, n := range []string{"12", "100", "1000"} {
		b.Run(n, func(b *testing.B) {
			dir, _ := os.MkdirTemp("/dev/shm", "rebuild")
			defer os.RemoveAll(dir)
			data, err := os.ReadFile("/dev/shm/wt/wall" + n + ".seam")
			if err != nil {
				data, _ = os.ReadFile("/dev/shm/wt/watch" + n + "/wall.seam")
			}
			text := string(data)
			at := strings.Index(text, "    2 ")
			line, _, _ := strings.Cut(text[at:], "\n")
			name := filepath.Join(dir, "wall.seam")
			w := &watching{call: &call{env: env{stdout: io.Discard, stderr: io.Discard, getenv: os.Getenv}}, ctx: context.Background(), name: name, folder: filepath.Join(dir, "wall-out")}
			if os.Getenv("NOPAGE") == "" {
				w.server, _ = live.Listen(0)
				defer w.server.Close()
			}
			for i := 0; b.Loop(); i++ {
				changed := line
				for _, p := range []string{"along (2.7", "along (1.8"} {
					changed = strings.ReplaceAll(changed, p, p+strconv.Itoa(i%9))
				}
				os.WriteFile(name, []byte(text[:at]+changed+text[at+len(line):]), 0o666)
				w.build(func(string) {})
			}
		})
	}
}
