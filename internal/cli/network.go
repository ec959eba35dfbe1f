package cli

import (
	"crypto/tls"
	"fmt"
	"net"
	"net/netip"
	"os"
	"slices"
	"strings"

	"kettlefrost/internal/app"
)

// networkFlags are how the pages are reached, from this computer or from others.
type networkFlags struct {
	Listen      string   `default:"127.0.0.1:8090" placeholder:"HOST:PORT" help:"Address to serve on (${default}); port 0 takes a free one. On an address of the network, people must be set up and sign in."`
	Host        []string `placeholder:"NAME" help:"Another name under which the pages may be asked for, such as kitchen.example; repeat it for more."`
	TLSCert     string   `name:"tls-cert" placeholder:"FILE" help:"Certificate, with those that vouch for it, as PEM: the pages are served encrypted."`
	TLSKey      string   `name:"tls-key" placeholder:"FILE" help:"Its key, as PEM."`
	BehindProxy []string `placeholder:"ADDRESS" help:"Address or network of a proxy that encrypts and passes requests on, such as 127.0.0.1: what it says in X-Forwarded-Proto and X-Forwarded-For is believed, and requests from elsewhere are refused. Repeat it for more."`
	PlainHTTP   bool     `name:"plain-http" help:"Serve other computers without encryption: whoever can listen on the network reads passwords, PINs and everything else, and can act as anybody."`
}

// reach is what the flags come to.
type reach struct {
	network bool             // other computers are served
	hosts   []string         // names under which the pages may be asked for
	proxies []netip.Prefix   // that are believed
	cert    *tls.Certificate // nil without encryption of our own
}

// reach reads the flags.
func (f networkFlags) reach() (reach, error) {
	var r reach
	host, _, err := net.SplitHostPort(f.Listen)
	if err != nil {
		return r, failure{badUsage, "--listen " + f.Listen, "this is not a host and a port", "write it like 127.0.0.1:8090"}
	}
	ip, err := netip.ParseAddr(host)
	own := host == "localhost" || err == nil && ip.IsLoopback()
	r.network = !own || len(f.BehindProxy) > 0
	if r.hosts, err = hostsOf(host, f.Host); err != nil {
		return r, err
	}
	for _, text := range f.BehindProxy {
		p, err := proxyPrefix(text)
		if err != nil {
			return r, err
		}
		r.proxies = append(r.proxies, p)
	}
	if r.cert, err = f.certificate(); err != nil {
		return r, err
	}
	return r, nil
}

// encrypts refuses to serve other computers without encryption, unless that is what is asked for.
func (r reach) encrypts(f networkFlags) error {
	if r.network && r.cert == nil && r.proxies == nil && !f.PlainHTTP {
		return failure{badUsage, "--listen " + f.Listen, "other computers would be served without encryption",
			"give --tls-cert and --tls-key, or --behind-proxy with the address of a proxy that encrypts; on a network that you trust, --plain-http does without"}
	}
	return nil
}

// hostsOf are the names of this computer that a browser may ask for: that of the address, when it is one; otherwise the addresses of its
// network cards. A page of another site can bring its own name to this computer, but not a bare address.
func hostsOf(listen string, more []string) ([]string, error) {
	hosts := []string{}
	for _, h := range more {
		name := strings.ToLower(strings.TrimSuffix(h, "."))
		if name == "" || strings.ContainsAny(name, ":/*@ []") {
			if _, err := netip.ParseAddr(strings.Trim(name, "[]")); err != nil {
				return nil, failure{badUsage, "--host " + h, "this is no name of a computer", "write it without http:// and port, such as kitchen.example"}
			}
		}
		hosts = append(hosts, strings.Trim(name, "[]"))
	}
	ip, err := netip.ParseAddr(listen)
	if listen != "" && (err != nil || !ip.IsUnspecified()) {
		return append(hosts, strings.ToLower(listen)), nil
	}
	cards, err := net.InterfaceAddrs()
	if err != nil {
		return nil, fmt.Errorf("the addresses of this computer cannot be read: %w", err)
	}
	for _, card := range cards {
		if p, err := netip.ParsePrefix(card.String()); err == nil && !p.Addr().IsLoopback() {
			hosts = append(hosts, p.Addr().Unmap().WithZone("").String())
		}
	}
	return hosts, nil
}

func proxyPrefix(text string) (netip.Prefix, error) {
	if ip, err := netip.ParseAddr(text); err == nil {
		return netip.PrefixFrom(ip.Unmap(), ip.Unmap().BitLen()), nil
	}
	p, err := netip.ParsePrefix(text)
	if err != nil || p.Bits() == 0 {
		return p, failure{badUsage, "--behind-proxy " + text, "this is no address or network of a proxy", "write it like 127.0.0.1 or 172.18.0.0/16, as the requests come from it"}
	}
	return p.Masked(), nil
}

// certificate is nil when none is given.
func (f networkFlags) certificate() (*tls.Certificate, error) {
	switch {
	case f.TLSCert == "" && f.TLSKey == "":
		return nil, nil
	case f.TLSCert == "" || f.TLSKey == "":
		return nil, failure{badUsage, "--tls-cert, --tls-key", "one goes with the other", "give both files"}
	}
	for _, name := range []string{f.TLSCert, f.TLSKey} {
		if _, err := os.Stat(name); err != nil {
			return nil, failure{badUsage, name, "cannot be read: " + reason(err), "give the PEM files of the certificate and its key"}
		}
	}
	pair, err := tls.LoadX509KeyPair(f.TLSCert, f.TLSKey)
	if err != nil {
		return nil, failure{badUsage, "--tls-cert, --tls-key", "they are no certificate and its key: " + strings.TrimPrefix(err.Error(), "tls: "), "give both as PEM"}
	}
	return &pair, nil
}

// mayServe refuses to open the pages to other computers unless people sign in, and to anybody when nobody could.
func (r reach) mayServe(s *surroundings, f networkFlags, records *app.Records) error {
	place := "--listen " + f.Listen
	if len(r.proxies) > 0 {
		place = "--behind-proxy"
	}
	const first = "kettlefrost people add NAME --role owner --records FILE adds the first"
	if records == nil {
		if r.network {
			return failure{badUsage, place, "other computers could read the book there, and nobody signs in without records", "give --records FILE, and set people up: " + first}
		}
		return nil
	}
	set, err := records.People().SetUp(s.ctx)
	if err != nil {
		return err
	}
	if !set {
		if r.network {
			return failure{badUsage, place, "other computers could read the book there, and nobody is set up to sign in", first}
		}
		return nil
	}
	can, err := records.People().OwnerWithPassword(s.ctx)
	switch {
	case err != nil:
		return err
	case !can:
		return failure{stopped, "the records", "they have owners, and none of them has a password, so nobody could sign in", "kettlefrost people password ID sets one: passwords are in no export"}
	}
	return r.encrypts(f)
}

// caution says what is risked by serving other computers without encryption.
func (r reach) caution(s *surroundings, f networkFlags) {
	if r.network && r.cert == nil && f.PlainHTTP && len(r.proxies) == 0 {
		s.say("caution: --plain-http: whoever can listen on this network can read passwords and PINs as they are typed, and can take over any device that is signed in. Keep guests on another network.")
	}
}

// scheme is how the address that is printed begins.
func (r reach) scheme() string {
	if r.cert != nil {
		return "https"
	}
	return "http"
}

// shown is the address that people open: the first name, when it listens on every card.
func (r reach) shown(listener net.Addr) string {
	host, port, err := net.SplitHostPort(listener.String())
	if err != nil {
		return listener.String()
	}
	if ip, err := netip.ParseAddr(host); err == nil && ip.IsUnspecified() && len(r.hosts) > 0 {
		first := r.hosts[0]
		if i := slices.IndexFunc(r.hosts, func(h string) bool { a, err := netip.ParseAddr(h); return err != nil || a.Is4() }); i >= 0 {
			first = r.hosts[i]
		}
		host = first
	}
	return net.JoinHostPort(host, port)
}
