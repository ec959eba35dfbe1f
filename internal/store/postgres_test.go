package store

import (
	"cmp"
	"context"
	"database/sql"
	"fmt"
	"net"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"

	_ "github.com/jackc/pgx/v5/stdlib" // the driver "pgx"
)

// server is a PostgreSQL server in a temporary folder, on a free port of this machine alone.
type server struct {
	bin, folder string
	port        int
	as          *syscall.Credential // the server refuses to run as root
}

// shared is the server of all tests but those that stop it.
var shared = sync.OnceValues(startServer)

var started []*server // ended by TestMain

func TestMain(m *testing.M) {
	if runChild() {
		return
	}
	code := m.Run()
	for _, s := range started {
		if err := s.stop("immediate"); err != nil {
			fmt.Fprintln(os.Stderr, err)
			code = max(code, 1)
		}
		if err := os.RemoveAll(s.folder); err != nil {
			fmt.Fprintln(os.Stderr, err)
			code = max(code, 1)
		}
	}
	os.Exit(code)
}

var databaseNumber atomic.Int64

// newPostgres makes an empty database.
func newPostgres(t testing.TB) string {
	t.Helper()
	if testing.Short() {
		t.Skip("needs a PostgreSQL server, which -short does not start")
	}
	s, err := shared()
	if err != nil {
		t.Fatalf("%v\nThese tests need the programs of a PostgreSQL server: run test/postgres, which installs them.", err)
	}
	return s.newDatabase(t, "")
}

func (s *server) newDatabase(t testing.TB, options string) string {
	t.Helper()
	name := fmt.Sprintf("kitchen%d", databaseNumber.Add(1))
	db, err := sql.Open("pgx", s.address("postgres"))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if _, err := db.Exec("create database " + name + " " + options); err != nil {
		t.Fatal(err)
	}
	return s.address(name)
}

func (s *server) address(database string) string {
	return fmt.Sprintf("postgres://cook@127.0.0.1:%d/%s?sslmode=disable", s.port, database)
}

// findServer is the folder of the newest server's programs.
func findServer() (string, error) {
	if path, err := exec.LookPath("initdb"); err == nil {
		return filepath.Dir(path), nil
	}
	var found []string
	for _, pattern := range []string{"/usr/lib/postgresql/*/bin", "/usr/pgsql-*/bin", "/usr/libexec/postgresql*", "/opt/homebrew/opt/postgresql*/bin", "/usr/local/opt/postgresql*/bin"} {
		some, err := filepath.Glob(filepath.Join(pattern, "initdb"))
		if err != nil {
			return "", err
		}
		found = append(found, some...)
	}
	if len(found) == 0 {
		return "", fmt.Errorf("no initdb is in the PATH or where systems put it")
	}
	return filepath.Dir(slices.MaxFunc(found, func(a, b string) int { return cmp.Or(cmp.Compare(len(a), len(b)), cmp.Compare(a, b)) })), nil
}

func startServer() (*server, error) {
	bin, err := findServer()
	if err != nil {
		return nil, err
	}
	s := &server{bin: bin}
	if s.as, err = notRoot(); err != nil {
		return nil, err
	}
	if s.folder, err = os.MkdirTemp("", "kettlefrost-postgres-"); err != nil {
		return nil, err
	}
	started = append(started, s)
	if s.as != nil {
		if err := os.Chown(s.folder, int(s.as.Uid), int(s.as.Gid)); err != nil {
			return nil, err
		}
	}
	if s.port, err = freePort(); err != nil {
		return nil, err
	}
	if err := s.run("initdb", "-D", s.data(), "-U", "cook", "--auth=trust", "-E", "UTF8", "--locale=C", "--no-sync"); err != nil {
		return nil, err
	}
	return s, s.start()
}

func (s *server) data() string { return filepath.Join(s.folder, "data") }

func (s *server) start() error {
	options := fmt.Sprintf("-p %d -k '' -c listen_addresses=127.0.0.1 -c max_connections=200", s.port)
	return s.run("pg_ctl", "start", "-w", "-D", s.data(), "-l", filepath.Join(s.folder, "log"), "-o", options)
}

// stop ends the server; "immediate" is as if its machine had lost power, but for the disk.
func (s *server) stop(mode string) error {
	if _, err := os.Stat(filepath.Join(s.data(), "postmaster.pid")); os.IsNotExist(err) {
		return nil
	}
	return s.run("pg_ctl", "stop", "-w", "-m", mode, "-D", s.data())
}

func (s *server) run(program string, args ...string) error {
	cmd := exec.CommandContext(context.Background(), filepath.Join(s.bin, program), args...)
	cmd.Dir = s.folder
	if s.as != nil {
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: s.as}
	}
	// To a file: the server that pg_ctl starts inherits it, and with a pipe we should wait for the server to end.
	log, err := os.OpenFile(filepath.Join(s.folder, program+".out"), os.O_CREATE|os.O_TRUNC|os.O_RDWR, 0o600)
	if err != nil {
		return err
	}
	defer log.Close()
	cmd.Stdout, cmd.Stderr = log, log
	if err := cmd.Run(); err != nil {
		said, _ := os.ReadFile(log.Name())
		return fmt.Errorf("%s: %w\n%s", program, err, said)
	}
	return nil
}

// notRoot is who runs the server when we are root: the user that the package made, or nobody.
func notRoot() (*syscall.Credential, error) {
	if runtime.GOOS == "windows" || os.Getuid() != 0 {
		return nil, nil
	}
	who, err := user.Lookup("postgres")
	if err != nil {
		if who, err = user.Lookup("nobody"); err != nil {
			return nil, err
		}
	}
	uid, err := strconv.Atoi(who.Uid)
	if err != nil {
		return nil, err
	}
	gid, err := strconv.Atoi(who.Gid)
	return &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}, err
}

func freePort() (int, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return 0, err
	}
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port, nil
}
