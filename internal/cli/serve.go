package cli

import (
	"cmp"
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"maps"
	"net"
	"net/http"
	"net/url"
	"slices"
	"syscall"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/people"
	"kettlefrost/internal/web"
	"kettlefrost/schema"
)

// serveCommand shows the plans in a browser.
type serveCommand struct {
	bookFlag
	networkFlags
	backupFlags
	NoRecords bool          `help:"Keep no records: the pages plan, and nothing can be entered."`
	Idle      time.Duration `default:"96h" placeholder:"TIME" help:"A device that is not used for so long is signed out (${default})."`
	Days      int           `default:"30" placeholder:"DAYS" help:"After so many days every device signs in anew (${default})."`

	passing bool // the records are thrown away when it stops
}

// Run serves until it is interrupted, then lets the requests under way end.
func (c serveCommand) Run(s *surroundings) error {
	reach, err := c.reach()
	if err != nil {
		return err
	}
	forget, err := c.ownRecords(s, reach)
	if err != nil {
		return err
	}
	s.closers = append(s.closers, func() error { forget(); return nil })
	h, err := c.open(s)
	if err != nil {
		return err
	}
	if err := reach.mayServe(s, c.networkFlags, h.records); err != nil {
		return err
	}
	if err := c.limit(h.records); err != nil {
		return err
	}
	stop, err := c.keep(s, h.records)
	if err != nil {
		return err
	}
	defer stop()
	listener, err := net.Listen("tcp", c.Listen)
	if err != nil {
		return cannotListen(c.Listen, err)
	}
	book, found := h.read()
	if len(found) > 0 {
		s.say("%s: %s; kettlefrost check lists them", h.name(), tally(found))
	}
	reach.caution(s, c.networkFlags)
	server := &http.Server{
		Handler:           web.New(h, web.Options{Hosts: reach.hosts, Schemas: schema.Files(), Records: h.records, Proxies: reach.proxies, Plain: c.PlainHTTP, Passing: c.passing, End: s.ctx, Patience: pagePatience}),
		ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 30 * time.Second, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 64 << 10,
		BaseContext: func(net.Listener) context.Context { return s.ctx },
	}
	if reach.cert != nil {
		server.TLSConfig = &tls.Config{Certificates: []tls.Certificate{*reach.cert}, MinVersion: tls.VersionTLS12}
	}
	if err := s.show(fmt.Sprintf("%s://%s%s\n", reach.scheme(), reach.shown(listener.Addr()), firstPage(book))); err != nil {
		return errors.Join(err, listener.Close())
	}
	s.say("serving %s; interrupt to stop", h.name())
	return s.serve(server, listener)
}

// pagePatience is how long a page waits for its own work before it shows how far that is.
const pagePatience = 2 * time.Second

// limit sets how long devices stay signed in.
func (c serveCommand) limit(records *app.Records) error {
	if c.Idle < time.Minute || c.Days < 1 || c.Days > 400 {
		return failure{badUsage, "--idle, --days", "nobody could stay signed in like this, or nobody would ever be signed out", "give --idle a minute or more, such as 12h, and --days from 1 to 400"}
	}
	if records != nil {
		records.People().Limit(people.Limits{Idle: people.Millis(c.Idle.Milliseconds()), Most: people.Millis(c.Days) * people.Day})
	}
	return nil
}

// serve serves until the surroundings' context ends or the server fails.
func (s *surroundings) serve(server *http.Server, listener net.Listener) error {
	stopped := make(chan error, 1)
	go func() {
		if server.TLSConfig != nil {
			stopped <- server.ServeTLS(listener, "", "") // the certificate is in the config
			return
		}
		stopped <- server.Serve(listener)
	}()
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
