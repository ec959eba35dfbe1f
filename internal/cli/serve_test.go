package cli

import (
	"bufio"
	"bytes"
	"context"
	"io"
	"net"
	"net/http"
	"net/netip"
	"slices"
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

// Where the pages may be served without anything else being said, and what is said otherwise.
func TestReach(t *testing.T) {
	for _, x := range []struct {
		flags   networkFlags
		network bool
		fails   string // with this in its text
	}{
		{networkFlags{Listen: "127.0.0.1:8090"}, false, ""}, {networkFlags{Listen: "127.0.0.9:1"}, false, ""}, {networkFlags{Listen: "[::1]:8090"}, false, ""}, {networkFlags{Listen: "localhost:0"}, false, ""},
		{networkFlags{Listen: "0.0.0.0:80"}, true, "without encryption"}, {networkFlags{Listen: ":8090"}, true, "without encryption"}, {networkFlags{Listen: "[::]:8090"}, true, "without encryption"},
		{networkFlags{Listen: "192.168.1.4:8090"}, true, "without encryption"}, {networkFlags{Listen: "localhost.example:80"}, true, "without encryption"}, {networkFlags{Listen: "8090"}, false, "not a host and a port"},
		{networkFlags{Listen: "192.168.1.4:8090", PlainHTTP: true}, true, ""}, {networkFlags{Listen: "127.0.0.1:80", BehindProxy: []string{"127.0.0.1"}}, true, ""},
		{networkFlags{Listen: "127.0.0.1:80", BehindProxy: []string{"0.0.0.0/0"}}, true, "no address or network"}, {networkFlags{Listen: "127.0.0.1:80", BehindProxy: []string{"proxy"}}, true, "no address or network"},
		{networkFlags{Listen: "127.0.0.1:80", Host: []string{"http://kitchen.example"}}, false, "no name of a computer"}, {networkFlags{Listen: "127.0.0.1:80", Host: []string{"*.example"}}, false, "no name of a computer"},
		{networkFlags{Listen: "127.0.0.1:80", Host: []string{"Kitchen.example."}}, false, ""}, {networkFlags{Listen: "127.0.0.1:80", TLSCert: "cert.pem"}, false, "one goes with the other"},
		{networkFlags{Listen: "127.0.0.1:80", TLSCert: "no.pem", TLSKey: "no.pem"}, false, "cannot be read"},
	} {
		r, err := x.flags.reach()
		if err == nil {
			err = r.encrypts(x.flags)
		}
		if (err == nil) != (x.fails == "") || err != nil && !strings.Contains(err.Error(), x.fails) {
			t.Errorf("%+v: %v, want %q", x.flags, err, x.fails)
		}
		if err == nil && r.network != x.network {
			t.Errorf("%+v: other computers are served: %v", x.flags, r.network)
		}
	}
}

func TestHostsThatMayBeAskedFor(t *testing.T) {
	hosts, err := hostsOf("192.168.1.4", []string{"Kitchen.example.", "[::2]"})
	if err != nil || !slices.Equal(hosts, []string{"kitchen.example", "::2", "192.168.1.4"}) {
		t.Errorf("%q (%v)", hosts, err)
	}
	hosts, err = hostsOf("0.0.0.0", nil)
	for _, h := range hosts {
		if _, errAddr := netip.ParseAddr(h); errAddr != nil {
			t.Errorf("%q is no address: a name that somebody else points here would be let in", h)
		}
	}
	if err != nil {
		t.Error(err)
	}
}
