package ipp

import (
	"errors"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"testing"
)

// Most printing systems listen on a socket of the computer; others on a port.
// Both are asked alike, and the answer is told from a refusal.
func TestAskOnSocketAndPort(t *testing.T) {
	answer := func(code int, says string) []byte {
		m := Message{Code: code, ID: 1, Groups: []Group{{OperationGroup, []Attribute{texts("status-message", 0x41, says)}}, {PrinterGroup, []Attribute{texts("printer-name", tagName, "Hall")}}}}
		data, err := m.Encode()
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	handler := http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		body, err := io.ReadAll(r.Body)
		asked, err2 := Decode(body)
		if err = errors.Join(err, err2); err != nil || r.Method != http.MethodPost || r.Header.Get("Content-Type") != "application/ipp" {
			t.Errorf("asked by %s: %v", r.Method, err)
			return
		}
		if asked.Groups[0].Text("printer-uri") != "ipp://localhost/printers/Hall" {
			_, _ = w.Write(answer(NotFound, "no such printer"))
			return
		}
		_, _ = w.Write(answer(0, ""))
	})
	socket := filepath.Join(t.TempDir(), "s")
	l, err := net.Listen("unix", socket)
	if err != nil {
		t.Skipf("no sockets here: %v", err)
	}
	onSocket := &http.Server{Handler: handler}
	go func() { _ = onSocket.Serve(l) }()
	t.Cleanup(func() { onSocket.Close() })
	onPort := httptest.NewServer(handler)
	t.Cleanup(onPort.Close)
	for _, s := range []Server{Server(socket), Server(strings.TrimPrefix(onPort.URL, "http://"))} {
		m, err := s.Ask(t.Context(), GetPrinter, "printer-uri", "ipp://localhost/printers/Hall", "printer-name")
		if err != nil || len(m.Groups) != 2 || m.Groups[1].Text("printer-name") != "Hall" {
			t.Errorf("%s: %+v, %v", s, m, err)
		}
		var refused Refused
		if _, err = s.Ask(t.Context(), GetPrinter, "printer-uri", "ipp://localhost/printers/Attic"); !errors.As(err, &refused) || refused.Status != NotFound || !strings.Contains(err.Error(), "no such printer") {
			t.Errorf("%s: %v", s, err)
		}
	}
	if host, _ := Server("printhost").client(); host != "printhost:631" {
		t.Errorf("without a port: %s", host)
	}
}
