// Package pgserver starts a PostgreSQL server of its own in a temporary folder, on a free port of this machine alone, and throws it away. It is
// for tests, and touches no server that is there.
package pgserver

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"sync/atomic"

	_ "github.com/jackc/pgx/v5/stdlib" // the driver "pgx"
)

// Server is a running server, or one that was stopped.
type Server struct {
	bin, folder string
	port        int
	databases   atomic.Int64
}

// Start starts a server. It ends with Remove.
func Start() (*Server, error) {
	bin, err := find()
	if err != nil {
		return nil, err
	}
	s := &Server{bin: bin}
	if s.folder, err = os.MkdirTemp("", "kettlefrost-postgres-"); err != nil {
		return nil, err
	}
	if err := s.prepare(); err != nil {
		return nil, errors.Join(err, s.Remove())
	}
	return s, nil
}

func (s *Server) prepare() (err error) {
	if err := giveAway(s.folder); err != nil {
		return err
	}
	if s.port, err = freePort(); err != nil {
		return err
	}
	if err := s.run("initdb", "-D", s.data(), "-U", "cook", "--auth=trust", "-E", "UTF8", "--locale=C", "--no-sync"); err != nil {
		return err
	}
	return s.Restart()
}

// Restart starts a server that was stopped.
func (s *Server) Restart() error {
	options := fmt.Sprintf("-p %d -k '' -c listen_addresses=127.0.0.1 -c max_connections=200", s.port)
	return s.run("pg_ctl", "start", "-w", "-D", s.data(), "-l", filepath.Join(s.folder, "log"), "-o", options)
}

// Stop ends the server; the mode "immediate" is as if its machine had lost power, but for the disk.
func (s *Server) Stop(mode string) error {
	if _, err := os.Stat(filepath.Join(s.data(), "postmaster.pid")); os.IsNotExist(err) {
		return nil
	}
	return s.run("pg_ctl", "stop", "-w", "-m", mode, "-D", s.data())
}

// Remove ends the server and deletes all that it wrote.
func (s *Server) Remove() error { return errors.Join(s.Stop("immediate"), os.RemoveAll(s.folder)) }

// Database makes an empty database, with options as create database takes them, and returns its address.
func (s *Server) Database(options string) (address string, err error) {
	name := fmt.Sprintf("kitchen%d", s.databases.Add(1))
	db, err := sql.Open("pgx", s.Address("postgres"))
	if err != nil {
		return "", err
	}
	defer db.Close()
	_, err = db.Exec("create database " + name + " " + options)
	return s.Address(name), err
}

// Address is that of a database by its name.
func (s *Server) Address(database string) string {
	return fmt.Sprintf("postgres://cook@127.0.0.1:%d/%s?sslmode=disable", s.port, database)
}

// find is the folder of the newest server's programs.
func find() (string, error) {
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
		return "", errors.New("no initdb is in the PATH or where systems put it: run test/postgres, which installs the programs of a PostgreSQL server")
	}
	return filepath.Dir(slices.MaxFunc(found, func(a, b string) int { return cmp.Or(cmp.Compare(len(a), len(b)), cmp.Compare(a, b)) })), nil
}

func (s *Server) data() string { return filepath.Join(s.folder, "data") }

func (s *Server) run(program string, args ...string) error {
	cmd := exec.CommandContext(context.Background(), filepath.Join(s.bin, program), args...)
	cmd.Dir = s.folder
	if err := Confine(cmd); err != nil {
		return err
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

func freePort() (int, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return 0, err
	}
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port, nil
}
