package sign

import (
	"bytes"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"hourseal/record/recordtest/outside"

	"golang.org/x/crypto/ssh/agent"
)

// TestRealAgentSignsTheSameBytes: ssh-agent, given our key file by ssh-add,
// makes the very envelope that the key file makes.
func TestRealAgentSignsTheSameBytes(t *testing.T) {
	program, add := outside.Program(t, "ssh-agent"), outside.Program(t, "ssh-add")
	dir := t.TempDir()
	// The path of a socket may have about a hundred bytes, and a test's own
	// folder can be longer.
	socketDir, err := os.MkdirTemp("", "agent")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(socketDir) })
	socket := filepath.Join(socketDir, "s")
	cmd := exec.Command(program, "-D", "-a", socket)
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { cmd.Process.Kill(); cmd.Wait() })
	var conn net.Conn
	for range 200 {
		if conn, err = net.Dial("unix", socket); err == nil {
			break
		}
		time.Sleep(10 * time.Millisecond)
	}
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { conn.Close() })

	k := testKey(t, 7)
	if _, err := AgentSigner(conn, k.Public()); err == nil || err.Error() != "ssh-agent does not hold the key "+k.Public().Fingerprint()+": add it with: ssh-add FILE" {
		t.Errorf("before ssh-add: %v", err)
	}
	file, err := k.MarshalOpenSSH("yard", nil)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "yard")
	writeFile(t, path, file)
	adding := exec.Command(add, "-q", path)
	adding.Env = append(os.Environ(), "SSH_AUTH_SOCK="+socket)
	if out, err := adding.CombinedOutput(); err != nil {
		t.Fatalf("ssh-add: %v\n%s", err, out)
	}
	s, err := AgentSigner(conn, k.Public())
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range []int{1, 900, MaxPayloadBytes} {
		got, err := Seal(RecordV1, testPayload(n), s)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, seal(t, testPayload(n))) {
			t.Errorf("%d bytes: the agent's envelope is another than the key file's", n)
		}
	}
	// On a connection of its own: this client reads ahead.
	second, err := net.Dial("unix", socket)
	if err != nil {
		t.Fatal(err)
	}
	defer second.Close()
	if err := agent.NewClient(second).Lock([]byte("x")); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Sign([]byte("abc")); err == nil || !strings.HasPrefix(err.Error(), "ssh-agent did not sign (is it locked") {
		t.Errorf("locked: %v", err)
	}
}

// script is a connection that answers from a fixed text.
type script struct{ answers bytes.Buffer }

func (s *script) Write(b []byte) (int, error) { return len(b), nil }
func (s *script) Read(b []byte) (int, error)  { return s.answers.Read(b) }

func TestBrokenAgents(t *testing.T) {
	k := testKey(t, 7)
	for name, answer := range map[string]string{
		"hangs up":         "",
		"says it failed":   "\x00\x00\x00\x01\x05",
		"talks nonsense":   "\x00\x00\x00\x04abcd",
		"claims much":      "\xff\xff\xff\xff",
		"claims many keys": "\x00\x00\x00\x05\x0c\xff\xff\xff\xff",
		"stops early":      "\x00\x00\x00\x09\x0c\x00",
	} {
		s := new(script)
		s.answers.WriteString(answer)
		if _, err := AgentSigner(s, k.Public()); err == nil || !strings.Contains(err.Error(), "ssh-agent") {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := AgentSigner(nil, k.Public()); err == nil {
		t.Error("no connection: no error")
	}
	if _, err := AgentSigner(new(script), PublicKey{1}); err == nil {
		t.Error("weak key: no error")
	}
}
