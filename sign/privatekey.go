package sign

import (
	"crypto/ed25519"
	"errors"
	"fmt"
	"io"
)

// Signer makes Ed25519 signatures (RFC 8032, pure, 64 bytes) with one key. It
// is a [PrivateKey] held in memory or a key that ssh-agent holds.
type Signer interface {
	Public() PublicKey
	Sign(message []byte) ([]byte, error)
}

// PrivateKey is an Ed25519 private key in memory. However it is printed, only
// its public fingerprint is shown.
type PrivateKey struct {
	key ed25519.PrivateKey // always of ed25519.PrivateKeySize
	pub PublicKey
}

// NewKey makes a key from 32 bytes of random, which must be a source fit for
// secrets. It reads no other source.
func NewKey(random io.Reader) (*PrivateKey, error) {
	if random == nil {
		return nil, errors.New("cannot make a key: no source of randomness")
	}
	seed := make([]byte, ed25519.SeedSize)
	if _, err := io.ReadFull(random, seed); err != nil {
		return nil, fmt.Errorf("cannot make a key: reading randomness: %w", err)
	}
	return keyFromSeed(seed), nil
}

func keyFromSeed(seed []byte) *PrivateKey {
	k := &PrivateKey{key: ed25519.NewKeyFromSeed(seed)}
	copy(k.pub[:], k.key[ed25519.SeedSize:])
	return k
}

// Public is the key's public half; of no key, the zero value, a weak key.
func (k *PrivateKey) Public() PublicKey {
	if k == nil {
		return PublicKey{}
	}
	return k.pub
}

// Sign signs message as it stands.
func (k *PrivateKey) Sign(message []byte) ([]byte, error) {
	if k == nil || len(k.key) != ed25519.PrivateKeySize {
		return nil, errors.New("cannot sign: no private key")
	}
	return ed25519.Sign(k.key, message), nil
}

// Format prints the fingerprint under every verb, so that a key in a log or an
// error message gives nothing away.
func (k PrivateKey) Format(f fmt.State, _ rune) {
	io.WriteString(f, "private key of "+k.pub.Fingerprint())
}
