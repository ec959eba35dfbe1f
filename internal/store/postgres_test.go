package store

import (
	"fmt"
	"os"
	"sync"
	"testing"

	"kettlefrost/internal/store/pgserver"
)

// shared is the server of all tests but those that stop it.
var shared = sync.OnceValues(startServer)

var started []*pgserver.Server // removed by TestMain

func startServer() (*pgserver.Server, error) {
	s, err := pgserver.Start()
	if err == nil {
		started = append(started, s)
	}
	return s, err
}

func TestMain(m *testing.M) {
	if runChild() {
		return
	}
	code := m.Run()
	for _, s := range started {
		if err := s.Remove(); err != nil {
			fmt.Fprintln(os.Stderr, err)
			code = max(code, 1)
		}
	}
	os.Exit(code)
}

// newPostgres makes an empty database.
func newPostgres(t testing.TB) string {
	t.Helper()
	if testing.Short() {
		t.Skip("needs a PostgreSQL server, which -short does not start")
	}
	s, err := shared()
	if err != nil {
		t.Fatal(err)
	}
	return newDatabase(t, s, "")
}

func newDatabase(t testing.TB, s *pgserver.Server, options string) string {
	t.Helper()
	address, err := s.Database(options)
	if err != nil {
		t.Fatal(err)
	}
	return address
}
