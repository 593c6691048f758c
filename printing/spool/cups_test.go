package spool_test

import (
	"context"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"quarterstep/printing/spool"
)

// cups is a printing system of the test's own, on a loopback port, with queues
// that print into files. It ends with the test.
type cups struct {
	t      *testing.T
	ctx    context.Context // 20 s for all that is asked of the system
	folder string
	system spool.System
}

// The models: a PDF printer with Letter and A4 and margins of 1/4 and 1/2 in
// (package cups-filters), and a PostScript one of any size without margins
// (package printer-driver-cups-pdf).
const (
	sheetModel = "/usr/share/ppd/cupsfilters/Generic-PDF_Printer-PDF.ppd"
	rollModel  = "/usr/share/ppd/cups-pdf/CUPS-PDF_opt.ppd"
)

const daemonConf = `Listen 127.0.0.1:%d
LogLevel warn
Browsing No
WebInterface No
MaxJobTime 60
<Location />
Order allow,deny
Allow from 127.0.0.1
</Location>
<Policy default>
<Limit All>
Order allow,deny
Allow from 127.0.0.1
</Limit>
</Policy>
`

const filesConf = `FileDevice Yes
ServerRoot %[1]s/root
RequestRoot %[1]s/spool
CacheDir %[1]s/cache
StateDir %[1]s/state
TempDir %[1]s/spool/tmp
ErrorLog %[1]s/error_log
AccessLog %[1]s/access_log
PageLog %[1]s/page_log
Printcap %[1]s/printcap
`

// startCUPS starts a real CUPS. It fails, and says what to install, where there
// is none; systems other than Linux have their own and are not for a test.
func startCUPS(t *testing.T) *cups {
	t.Helper()
	if runtime.GOOS != "linux" {
		t.Skip("a CUPS of the test's own is started on Linux only")
	}
	daemon := "/usr/sbin/cupsd"
	for _, need := range []string{daemon, sheetModel, rollModel} {
		if _, err := os.Stat(need); err != nil {
			t.Fatalf("this check needs %s: install the packages cups, cups-client and printer-driver-cups-pdf", need)
		}
	}
	// Not t.TempDir: the filters run as another user, who must be let in.
	folder, err := os.MkdirTemp("", "quarterstep-cups")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(folder) })
	for _, sub := range []string{"", "root", "spool", "spool/tmp", "cache", "state", "state/certs", "out"} {
		if err := os.MkdirAll(filepath.Join(folder, sub), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.Chmod(filepath.Join(folder, sub), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	port := freePort(t)
	conf, files := filepath.Join(folder, "cupsd.conf"), filepath.Join(folder, "cups-files.conf")
	for name, text := range map[string]string{conf: fmt.Sprintf(daemonConf, port), files: fmt.Sprintf(filesConf, folder)} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	cmd := exec.Command(daemon, "-f", "-c", conf, "-s", files)
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan struct{})
	go func() { _ = cmd.Wait(); close(ended) }()
	t.Cleanup(func() {
		_ = cmd.Process.Signal(os.Interrupt)
		select {
		case <-ended:
		case <-time.After(3 * time.Second):
			_ = cmd.Process.Kill()
			<-ended
		}
		if c, err := net.DialTimeout("tcp", fmt.Sprintf("127.0.0.1:%d", port), time.Second); err == nil {
			c.Close()
			t.Errorf("port %d is still taken", port)
		}
	})
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	t.Cleanup(cancel)
	c := &cups{t: t, ctx: ctx, folder: folder, system: spool.System{Server: fmt.Sprintf("127.0.0.1:%d", port)}}
	for start := time.Now(); ; time.Sleep(50 * time.Millisecond) {
		if conn, err := net.Dial("tcp", c.system.Server); err == nil {
			conn.Close()
			return c
		}
		select {
		case <-ended:
			t.Fatalf("cupsd ended at once: %s", c.log())
		default:
		}
		if time.Since(start) > 8*time.Second {
			t.Fatalf("cupsd does not answer: %s", c.log())
		}
	}
}

func freePort(t *testing.T) int {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port
}

// log is the end of what the daemon wrote down.
func (c *cups) log() string {
	data, _ := os.ReadFile(filepath.Join(c.folder, "error_log"))
	return string(data[max(0, len(data)-2000):])
}

// admin runs one of CUPS's own programs against the test's system.
func (c *cups) admin(name string, args ...string) string {
	c.t.Helper()
	for _, sbin := range []string{"/usr/sbin/" + name, "/usr/bin/" + name} {
		if _, err := os.Stat(sbin); err == nil {
			name = sbin
			break
		}
	}
	cmd := exec.CommandContext(c.ctx, name, args...)
	cmd.Env = append(os.Environ(), "LC_ALL=C", "CUPS_SERVER="+c.system.Server)
	out, err := cmd.CombinedOutput()
	if err != nil {
		c.t.Fatalf("%s %v: %v: %s %s", name, args, err, out, c.log())
	}
	return string(out)
}

// queue makes a queue that prints into a file, and gives the file's name.
func (c *cups) queue(name, model, words string, options ...string) string {
	c.t.Helper()
	out := filepath.Join(c.folder, "out", name)
	args := []string{"-p", name, "-E", "-v", "file:" + out, "-P", model, "-D", words}
	for _, o := range options {
		args = append(args, "-o", o)
	}
	c.admin("lpadmin", args...)
	return out
}

// printer is one of the test's printers as the package sees it.
func (c *cups) printer(name string) spool.Printer {
	c.t.Helper()
	p, err := c.system.Printer(c.ctx, name)
	if err != nil {
		c.t.Fatalf("%v: %s", err, c.log())
	}
	return p
}

// printed sends the job, watches it to its end and gives the file printed.
func (c *cups) printed(p spool.Printer, j spool.Job, out string) []byte {
	c.t.Helper()
	ticket, err := c.system.Send(c.ctx, p, j)
	if err != nil {
		c.t.Fatalf("%v: %s", err, c.log())
	}
	var states []string
	err = c.system.Watch(c.ctx, ticket, func(p spool.Progress) { states = append(states, fmt.Sprint(p.State, p.Says)) })
	if err != nil {
		c.t.Fatalf("after %v: %v: %s", strings.Join(states, ", "), err, c.log())
	}
	data, err := os.ReadFile(out)
	if err != nil {
		c.t.Fatalf("%v: %s", err, c.log())
	}
	return data
}
