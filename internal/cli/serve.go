package cli

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"maps"
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"slices"
	"syscall"
	"time"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/web"
	"kettlefrost/schema"
)

// serveCommand shows the plans in a browser.
type serveCommand struct {
	bookFlag
	Listen string `default:"127.0.0.1:8090" placeholder:"HOST:PORT" help:"Address to serve on, of this computer only (${default}); port 0 takes a free one."`
}

// Run serves until it is interrupted, then lets the requests under way end.
func (c serveCommand) Run(s *surroundings) error {
	host, err := ownHost(c.Listen)
	if err != nil {
		return err
	}
	h, err := c.open(s)
	if err != nil {
		return err
	}
	listener, err := net.Listen("tcp", c.Listen)
	if err != nil {
		return cannotListen(c.Listen, err)
	}
	book, found := h.read()
	if len(found) > 0 {
		s.say("%s: %s; kettlefrost check lists them", h.name(), tally(found))
	}
	server := &http.Server{
		Handler:           web.New(h, web.Options{Hosts: []string{host}, Schemas: schema.Files(), Records: h.records}),
		ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 30 * time.Second, IdleTimeout: 2 * time.Minute,
		BaseContext: func(net.Listener) context.Context { return s.ctx },
	}
	if err := s.show(fmt.Sprintf("http://%s%s\n", listener.Addr(), firstPage(book))); err != nil {
		return errors.Join(err, listener.Close())
	}
	s.say("serving %s; interrupt to stop", h.name())
	return s.serve(server, listener)
}

// serve serves until the surroundings' context ends or the server fails.
func (s *surroundings) serve(server *http.Server, listener net.Listener) error {
	stopped := make(chan error, 1)
	go func() { stopped <- server.Serve(listener) }()
	select {
	case err := <-stopped:
		return fmt.Errorf("the server stopped: %w", err)
	case <-s.ctx.Done():
	}
	s.say("stopping")
	patience, cancel := context.WithTimeout(context.WithoutCancel(s.ctx), 5*time.Second)
	defer cancel()
	if err := server.Shutdown(patience); err != nil {
		return fmt.Errorf("requests under way did not end in time: %w", errors.Join(err, server.Close()))
	}
	return nil
}

// ownHost is the host of an address, which must be this computer's own loopback: anybody who can reach the pages can read the book.
func ownHost(address string) (string, error) {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		return "", failure{badUsage, "--listen " + address, "this is not a host and a port", "write it like 127.0.0.1:8090"}
	}
	if ip, err := netip.ParseAddr(host); host == "localhost" || err == nil && ip.IsLoopback() {
		return host, nil
	}
	return "", failure{badUsage, "--listen " + address, "other computers could read the book there, and there is no sign-in yet",
		"listen on 127.0.0.1, ::1 or localhost"}
}

func cannotListen(address string, err error) error {
	if errors.Is(err, syscall.EADDRINUSE) {
		return failure{failed, "--listen " + address, "another program listens there already", "stop it, or take another port: --listen 127.0.0.1:0 finds a free one"}
	}
	why := err
	if op, ok := errors.AsType[*net.OpError](err); ok {
		why = op.Err
	}
	return failure{failed, "--listen " + address, "cannot listen there: " + why.Error(), "take another port: --listen 127.0.0.1:0 finds a free one"}
}

// firstPage is the page of the run that comes first by its day, or the home page of a book without runs.
func firstPage(book kitchen.Book) string {
	names := slices.Sorted(maps.Keys(book.Runs))
	if len(names) == 0 {
		return "/"
	}
	first := slices.MinFunc(names, func(a, b string) int { return cmp.Compare(book.Runs[a].Day, book.Runs[b].Day) })
	return "/run/" + url.PathEscape(first)
}
