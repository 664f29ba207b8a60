//go:build unix

package main

import (
	"errors"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"golang.org/x/crypto/ssh"
	"golang.org/x/crypto/ssh/agent"
)

// askingAgent is an ssh-agent that asks a person before it signs, as ssh-add -c has it,
// and gets no answer.
type askingAgent struct {
	agent.Agent
	asked  chan struct{} // a value for each question
	answer chan struct{} // closed when the test is over
}

func (a askingAgent) Sign(ssh.PublicKey, []byte) (*ssh.Signature, error) {
	a.asked <- struct{}{}
	<-a.answer
	return &ssh.Signature{}, nil // too late for anybody
}

// While an agent waits for somebody to confirm, Ctrl-C ends the run at once, and nothing
// is written.
func TestInterruptedAgent(t *testing.T) {
	f := newYard(t)
	key, err := ssh.ParseRawPrivateKey(f.read(t, "keys/yard"))
	if err != nil {
		t.Fatal(err)
	}
	keyring := agent.NewKeyring()
	if err := keyring.Add(agent.AddedKey{PrivateKey: key}); err != nil {
		t.Fatal(err)
	}
	asking := askingAgent{keyring, make(chan struct{}, 8), make(chan struct{})}
	socket := filepath.Join(t.TempDir(), "agent")
	listener, err := net.Listen("unix", socket)
	if err != nil {
		t.Skipf("no socket of a file's name here: %v", err)
	}
	defer listener.Close()
	defer close(asking.answer)
	go func() {
		for {
			conn, err := listener.Accept()
			if err != nil {
				return
			}
			go func() {
				defer conn.Close()
				_ = agent.ServeAgent(asking, conn) // it ends when the program does
			}()
		}
	}()
	if err := os.Rename(f.path("keys/yard"), filepath.Join(f.home, "yard")); err != nil {
		t.Fatal(err)
	}
	f.env = append(f.env, "SSH_AUTH_SOCK="+socket)
	before := listing(t, f.dir)
	for _, args := range [][]string{
		{"key", "renew", "--no-input"}, {"key", "recovery", "--no-input"}, {"key", "revoke", "--from", "2026-05-04", "--why", "retired", "--no-input"},
		{"issue", portJob, "--no-input"},
	} {
		cmd := f.command(args...)
		var said limited
		cmd.Stdout, cmd.Stderr = &said, &said
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		timer := time.AfterFunc(patience, func() { _ = cmd.Process.Kill() })
		ended := make(chan error, 1)
		go func() { ended <- cmd.Wait() }()
		select {
		case <-asking.asked:
			_ = cmd.Process.Signal(syscall.SIGTERM) // SIGINT may be ignored by whoever runs the tests
			err = <-ended
		case err = <-ended:
			timer.Stop()
			t.Errorf("%q did not ask the agent: %v\n%s", args, err, said)
			continue
		}
		timer.Stop()
		if code := cmd.ProcessState.ExitCode(); !errors.As(err, new(*exec.ExitError)) || code != int(exitTerminated) {
			t.Errorf("%q ended with %d, %v\n%s", args, code, err, said)
		}
		if after := listing(t, f.dir); after != before {
			t.Errorf("%q: was\n%s\nis\n%s", args, before, after)
		}
	}
}

// listing names the files below a folder, a line each, without the locks of the ledger.
func listing(t *testing.T, dir string) (names string) {
	t.Helper()
	err := filepath.WalkDir(dir, func(path string, e os.DirEntry, err error) error {
		if err == nil && !e.IsDir() && e.Name() != ".lock" {
			names += path + "\n"
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}
