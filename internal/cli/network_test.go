package cli

import (
	"bufio"
	"bytes"
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"io"
	"math/big"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// certificateFiles are a certificate for this computer that vouches for itself, and its key.
func certificateFiles(t *testing.T) (cert, key string, pool *x509.CertPool) {
	t.Helper()
	private, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	template := &x509.Certificate{SerialNumber: big.NewInt(1), Subject: pkix.Name{CommonName: "kitchen"}, NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(time.Hour), IPAddresses: []net.IP{net.IPv4(127, 0, 0, 1)}, IsCA: true, BasicConstraintsValid: true}
	made, err := x509.CreateCertificate(rand.Reader, template, template, &private.PublicKey, private)
	if err != nil {
		t.Fatal(err)
	}
	secret, err := x509.MarshalECPrivateKey(private)
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	cert, key = filepath.Join(folder, "cert.pem"), filepath.Join(folder, "key.pem")
	pool = x509.NewCertPool()
	text := pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: made})
	pool.AppendCertsFromPEM(text)
	for name, data := range map[string][]byte{cert: text, key: pem.EncodeToMemory(&pem.Block{Type: "EC PRIVATE KEY", Bytes: secret})} {
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return cert, key, pool
}

// log is what a program says while others may read it.
type log struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (l *log) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.Write(p)
}

func (l *log) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.String()
}

// served starts the program, and gives the address that it prints and what it says.
func served(t *testing.T, args ...string) (address string, said *log) {
	t.Helper()
	ctx, interrupt := context.WithCancel(t.Context())
	out, shown := io.Pipe()
	said = &log{}
	code := make(chan int, 1)
	go func() {
		code <- Run(ctx, append([]string{"serve"}, args...), func(string) string { return "" }, strings.NewReader(""), shown, said)
		shown.Close()
	}()
	t.Cleanup(func() {
		interrupt()
		if got := <-code; got != fine {
			t.Errorf("exit code %d; it said:\n%s", got, said)
		}
	})
	address, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatalf("%v; it said:\n%s", err, said)
	}
	return strings.TrimSpace(address), said
}

// withOwner is a file of records with one owner.
func withOwner(t *testing.T) string {
	t.Helper()
	records := filepath.Join(t.TempDir(), "kitchen.records")
	var shown, said bytes.Buffer
	code := Run(t.Context(), []string{"people", "add", "Ada", "--role", "owner", "--records", records}, func(string) string { return "" }, strings.NewReader(adasPassword+"\n"), &shown, &said)
	if code != fine || strings.Contains(shown.String()+said.String(), adasPassword) {
		t.Fatalf("exit code %d: %s%s", code, &shown, &said)
	}
	return records
}

const adasPassword = "plum shelf ninety tractor"

// TestServeEncrypted: other computers are served encrypted, the cookie is for encrypted pages only, and nothing that is secret is in what the
// program says.
func TestServeEncrypted(t *testing.T) {
	cert, key, pool := certificateFiles(t)
	address, said := served(t, "--listen", "127.0.0.1:0", "--tls-cert", cert, "--tls-key", key, "--records", withOwner(t))
	at, err := url.Parse(address)
	if err != nil || at.Scheme != "https" {
		t.Fatalf("%s (%v), want https", address, err)
	}
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	client := &http.Client{Jar: jar, Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: pool}}}
	for _, password := range []string{"wrong plum shelf ninety", adasPassword} {
		answer, err := client.PostForm("https://"+at.Host+"/sign-in", url.Values{"name": {"Ada"}, "password": {password}, "device": {"office"}})
		if err != nil {
			t.Fatal(err)
		}
		page, err := io.ReadAll(answer.Body)
		answer.Body.Close()
		if in := strings.Contains(string(page), "Who acts: Ada"); err != nil || in != (password == adasPassword) {
			t.Errorf("in is %v: %s (%v)", in, answer.Status, err)
		}
	}
	session := ""
	for _, c := range jar.Cookies(at) {
		if strings.HasPrefix(c.Name, "__Host-") {
			session = c.Value
		}
	}
	if session == "" {
		t.Fatal("no cookie for encrypted pages only")
	}
	plain, err := http.Get("http://" + at.Host + "/")
	if err == nil {
		plain.Body.Close()
		if plain.StatusCode < 400 {
			t.Errorf("without encryption: %s", plain.Status)
		}
	}
	for _, secret := range []string{adasPassword, "wrong plum", session, "argon2"} {
		if strings.Contains(said.String(), secret) {
			t.Errorf("%q is in what the program says: %s", secret, said)
		}
	}
}

// TestServePlain: without encryption only when that is asked for, and then it is said what it risks.
func TestServePlain(t *testing.T) {
	address, said := served(t, "--listen", "0.0.0.0:0", "--plain-http", "--host", "kitchen.example", "--records", withOwner(t))
	if !strings.HasPrefix(address, "http://kitchen.example:") {
		t.Errorf("the address is %s, want the name that was given", address)
	}
	if !strings.Contains(said.String(), "caution: --plain-http") {
		t.Errorf("no caution: %s", said)
	}
	at, err := url.Parse(address)
	if err != nil {
		t.Fatal(err)
	}
	for host, want := range map[string]int{"kitchen.example": http.StatusOK, "evil.example": http.StatusMisdirectedRequest} {
		r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, "http://127.0.0.1:"+at.Port()+"/sign-in", nil)
		if err != nil {
			t.Fatal(err)
		}
		r.Host = host
		answer, err := http.DefaultClient.Do(r)
		if err != nil {
			t.Fatal(err)
		}
		answer.Body.Close()
		if answer.StatusCode != want {
			t.Errorf("asked as %s: %s, want %d", host, answer.Status, want)
		}
	}
}
