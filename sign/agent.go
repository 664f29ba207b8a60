//go:build !js

package sign

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"golang.org/x/crypto/ssh"
	"golang.org/x/crypto/ssh/agent"
)

// agentSigner signs through ssh-agent; the private key never comes here.
type agentSigner struct {
	client agent.Agent
	public PublicKey
	inSSH  ssh.PublicKey
}

// AgentSigner signs with a key that ssh-agent holds, over conn, a connection to
// the agent's socket. The caller opens and closes it, keeps it open as long as
// the Signer is in use, shares it with nobody, and sets a deadline on it if it
// is not to wait for ever: an agent may ask its user first. A key that the agent does not hold is an error. The
// agent signs the bytes as they are (pure Ed25519), so its signature is the one
// that the key file would make.
func AgentSigner(conn io.ReadWriter, key PublicKey) (Signer, error) {
	if conn == nil {
		return nil, errors.New("no connection to ssh-agent")
	}
	if err := key.Check(); err != nil {
		return nil, err
	}
	inSSH, err := ssh.ParsePublicKey(key.blob())
	if err != nil {
		return nil, fmt.Errorf("cannot use the key with ssh-agent: %w", err)
	}
	// Wrapped so that the client cannot close a connection that is not its own,
	// nor start a goroutine that outlives the call.
	client := agent.NewClient(struct{ io.ReadWriter }{conn})
	held, err := client.List()
	if err != nil {
		return nil, fmt.Errorf("cannot ask ssh-agent for its keys: %w", err)
	}
	for _, k := range held {
		if bytes.Equal(k.Blob, key.blob()) {
			return &agentSigner{client: client, public: key, inSSH: inSSH}, nil
		}
	}
	return nil, fmt.Errorf("ssh-agent does not hold the key %s: add it with: ssh-add FILE", key.Fingerprint())
}

// Public is the key that the agent signs with.
func (s *agentSigner) Public() PublicKey { return s.public }

// Sign has the agent sign message as it stands.
func (s *agentSigner) Sign(message []byte) ([]byte, error) {
	sig, err := s.client.Sign(s.inSSH, message)
	if err != nil {
		return nil, fmt.Errorf("ssh-agent did not sign (is it locked, or was the request declined?): %w", err)
	}
	if sig.Format != keyType || len(sig.Rest) != 0 {
		return nil, errors.New("ssh-agent answered with a signature of another kind than ed25519")
	}
	return sig.Blob, nil
}
