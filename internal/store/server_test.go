package store

import (
	"net/url"
	"testing"
	"time"

	"kettlefrost/internal/record"
)

// TestServerStops: a server of its own is stopped, hard, while others write; what was acknowledged is there when it is back.
func TestServerStops(t *testing.T) {
	if testing.Short() {
		t.Skip("needs a PostgreSQL server, which -short does not start")
	}
	own, err := startServer()
	if err != nil {
		t.Fatal(err)
	}
	address := newDatabase(t, own, "")
	s := open(t, address)
	var acknowledged []record.Entry
	stopped := make(chan error, 1)
	deadline := time.Now().Add(30 * time.Second)
	for i := 0; err == nil && time.Now().Before(deadline); i++ {
		if i == 100 {
			go func() { stopped <- own.Stop("immediate") }()
		}
		var got []record.Entry
		got, err = s.Append(t.Context(), []record.Entry{weighing("ana", i)})
		acknowledged = append(acknowledged, got...)
	}
	wantCode(t, err, Unreachable)
	if err := <-stopped; err != nil {
		t.Fatal(err)
	}
	_, err = s.Head(t.Context())
	wantCode(t, err, Unreachable)
	for _, err := range s.Follow(t.Context(), 0) {
		wantCode(t, err, Unreachable)
	}
	if err := own.Restart(); err != nil {
		t.Fatal(err)
	}
	for i := range len(acknowledged) + 1 { // the last may have been written or not: sent again, it is there once
		mustAppend(t, s, weighing("ana", i))
	}
	if got := all(t, s); len(acknowledged) < 100 || len(got) != len(acknowledged)+1 || !same(got[len(acknowledged)-1], acknowledged[len(acknowledged)-1]) {
		t.Errorf("%d entries of which %d were acknowledged", len(got), len(acknowledged))
	}
	intact(t, s, len(acknowledged)+1)
}

func TestServerRefuses(t *testing.T) {
	address := databases[1].address(t)
	server, err := shared()
	if err != nil {
		t.Fatal(err)
	}
	s := open(t, address)
	mustAppend(t, s, weighing("ana", 0))
	at, err := url.Parse(address)
	if err != nil {
		t.Fatal(err)
	}
	t.Run("a database that is not there", func(t *testing.T) {
		_, err := Open(t.Context(), server.Address("nowhere"), clock())
		wantCode(t, err, BadAddress)
	})
	t.Run("a user that is not there", func(t *testing.T) {
		at.User = url.UserPassword("nobody", "pepper")
		_, err := Open(t.Context(), at.String(), clock())
		wantCode(t, err, BadAddress)
	})
	t.Run("a database that keeps text otherwise", func(t *testing.T) {
		_, err := Open(t.Context(), newDatabase(t, server, "encoding 'SQL_ASCII' template template0"), clock())
		wantCode(t, err, BadAddress)
	})
	t.Run("a session that may only read", func(t *testing.T) {
		s := open(t, address+"&default_transaction_read_only=on")
		intact(t, s, 1)
		_, err := s.Append(t.Context(), weighings("ana", 1, 1))
		wantCode(t, err, ReadOnly)
	})
}
