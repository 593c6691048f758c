package ipp

import (
	"bytes"
	"context"
	"io"
	"net"
	"net/http"
	"os/user"
	"strings"
	"time"

	"quarterstep/assets/words"
)

// Operations asked for (RFC 8011, 5.4.15; GetPrinters is CUPS's own).
const (
	GetJob      = 0x0009
	GetPrinter  = 0x000B
	GetPrinters = 0x4002
)

// States of printers and jobs (RFC 8011, 5.4.11 and 5.3.7).
const (
	PrinterStopped = 5

	JobPending    = 3
	JobHeld       = 4
	JobProcessing = 5
	JobStopped    = 6
	JobCanceled   = 7
	JobAborted    = 8
	JobCompleted  = 9
)

// mostStatus is the last status that means success (RFC 8011, B.1.2).
const mostStatus = 0x00FF

// NotFound is the status of a printer or job that is not there.
const NotFound = 0x0406

// Refused is an answer that is no success.
type Refused struct {
	Status int
	Says   string
}

func (r Refused) Error() string {
	if r.Says != "" {
		return words.F("the printing system says: %s", r.Says)
	}
	return words.F("the printing system refuses to answer (%#04x)", r.Status)
}

// Server is a printing system: host:port, or the path of a socket on this
// computer.
type Server string

const (
	mostAnswer = 16 << 20 // bytes
	patience   = 10 * time.Second
)

// Ask sends one operation about the thing named by target, printer-uri or
// job-uri and its value, and asks for the attributes wanted. An answer that is
// no success is a Refused.
func (s Server) Ask(ctx context.Context, operation int, target, uri string, wanted ...string) (Message, error) {
	m := Message{Code: operation, ID: 1, Groups: []Group{{Tag: OperationGroup, Attributes: []Attribute{
		texts("attributes-charset", tagCharset, "utf-8"),
		texts("attributes-natural-language", tagLanguage, words.Now()),
	}}}}
	g := &m.Groups[0]
	if target != "" {
		g.Attributes = append(g.Attributes, texts(target, tagURI, uri))
	}
	if u, err := user.Current(); err == nil {
		g.Attributes = append(g.Attributes, texts("requesting-user-name", tagName, u.Username))
	}
	if len(wanted) > 0 {
		g.Attributes = append(g.Attributes, texts("requested-attributes", tagKeyword, wanted...))
	}
	answer, err := s.do(ctx, m)
	if err != nil {
		return Message{}, err
	}
	if answer.Code > mostStatus {
		says := ""
		if len(answer.Groups) > 0 {
			says = answer.Groups[0].Text("status-message")
		}
		return Message{}, Refused{answer.Code, says}
	}
	return answer, nil
}

func texts(name string, tag int, values ...string) Attribute {
	a := Attribute{Name: name}
	for _, v := range values {
		a.Values = append(a.Values, Value{tag, []byte(v)})
	}
	return a
}

func (s Server) do(ctx context.Context, m Message) (Message, error) {
	body, err := m.Encode()
	if err != nil {
		return Message{}, err
	}
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	host, client := s.client()
	req, err := http.NewRequestWithContext(ctx, http.MethodPost, "http://"+host+"/", bytes.NewReader(body))
	if err != nil {
		return Message{}, err
	}
	req.Header.Set("Content-Type", "application/ipp")
	resp, err := client.Do(req)
	if err != nil {
		return Message{}, words.Errorf("asking the printing system: %w", err)
	}
	defer resp.Body.Close()
	if resp.StatusCode != http.StatusOK {
		return Message{}, words.Errorf("asking the printing system: it answers %s", resp.Status)
	}
	data, err := io.ReadAll(io.LimitReader(resp.Body, mostAnswer))
	if err != nil {
		return Message{}, words.Errorf("asking the printing system: %w", err)
	}
	return Decode(data)
}

// client is what talks to the server, over its socket where it has one.
func (s Server) client() (host string, c *http.Client) {
	transport := &http.Transport{DisableKeepAlives: true}
	host = string(s)
	if strings.HasPrefix(host, "/") {
		socket := host
		host = "localhost"
		transport.DialContext = func(ctx context.Context, _, _ string) (net.Conn, error) {
			return new(net.Dialer).DialContext(ctx, "unix", socket)
		}
	} else if _, _, err := net.SplitHostPort(host); err != nil {
		host = net.JoinHostPort(host, "631")
	}
	return host, &http.Client{Transport: transport}
}
