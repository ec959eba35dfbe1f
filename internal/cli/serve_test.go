package cli

import (
	"bufio"
	"bytes"
	"context"
	"io"
	"net"
	"net/http"
	"strings"
	"testing"
	"time"
)

// A kitchen that opens the printed address sees the run, and an interrupt ends the server cleanly.
func TestServe(t *testing.T) {
	ctx, interrupt := context.WithCancel(t.Context())
	defer interrupt()
	out, shown := io.Pipe()
	var told bytes.Buffer
	code := make(chan int)
	go func() {
		code <- Run(ctx, []string{"serve", "--listen", "127.0.0.1:0"}, func(string) string { return "" }, strings.NewReader(""), shown, &told)
	}()
	address, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	address = strings.TrimSpace(address)
	if !strings.HasPrefix(address, "http://127.0.0.1:") || !strings.HasSuffix(address, "/run/tuesday") {
		t.Errorf("the printed address is %q, want the first run of the demo, tuesday, on 127.0.0.1", address)
	}
	for _, url := range []string{address, strings.TrimSuffix(address, "run/tuesday") + "schema/plan.v1.json"} {
		answer, err := http.Get(url)
		if err != nil {
			t.Fatal(err)
		}
		body, err := io.ReadAll(answer.Body)
		answer.Body.Close()
		if err != nil || answer.StatusCode != http.StatusOK || len(body) == 0 {
			t.Errorf("%s: %s, %d bytes, %v", url, answer.Status, len(body), err)
		}
	}
	interrupt()
	select {
	case got := <-code:
		if got != fine {
			t.Errorf("exit code %d, want %d; it said:\n%s", got, fine, told.String())
		}
	case <-time.After(20 * time.Second): // only so that a hanging server fails instead of hanging the test
		t.Fatal("the server does not stop")
	}
}

func TestBusyPortSaysWhatToDo(t *testing.T) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	var shown, told bytes.Buffer
	address := listener.Addr().String()
	code := Run(t.Context(), []string{"serve", "--listen", address}, func(string) string { return "" }, strings.NewReader(""), &shown, &told)
	if code != failed || shown.Len() > 0 {
		t.Errorf("exit code %d and %q on standard output, want %d and nothing", code, shown.String(), failed)
	}
	for _, want := range []string{address, "another program listens there already", "--listen 127.0.0.1:0"} {
		if !strings.Contains(told.String(), want) {
			t.Errorf("%q is missing in %q", want, told.String())
		}
	}
}

func TestOwnHost(t *testing.T) {
	for address, own := range map[string]bool{
		"127.0.0.1:8090": true, "127.0.0.9:1": true, "[::1]:8090": true, "localhost:0": true,
		"0.0.0.0:80": false, ":8090": false, "[::]:8090": false, "192.168.1.4:8090": false, "kitchen.example:80": false, "localhost.example:80": false, "8090": false,
	} {
		if _, err := ownHost(address); (err == nil) != own {
			t.Errorf("%s: %v, but this computer's own: %v", address, err, own)
		}
	}
}
