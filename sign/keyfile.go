//go:build !js

// Key files and ssh-agent are left out of the web page, which only verifies:
// golang.org/x/crypto/ssh would make up a good part of it.

package sign

import (
	"crypto/ed25519"
	"crypto/subtle"
	"crypto/x509"
	"encoding/pem"
	"errors"
	"fmt"
	"strings"

	"golang.org/x/crypto/ssh"
)

var (
	// ErrPassphraseNeeded is matched by the error for a key file under a
	// passphrase when none was given; see [PassphraseNeededError].
	ErrPassphraseNeeded = errors.New("the key file needs its passphrase")
	// ErrWrongPassphrase is matched by the error for a passphrase that does
	// not open the key file.
	ErrWrongPassphrase = errors.New("wrong passphrase for the key file")
)

// PassphraseNeededError is [ErrPassphraseNeeded] with the public key, which an
// OpenSSH file keeps in the clear. It is unproven until the file is opened.
type PassphraseNeededError struct{ Public PublicKey }

func (e *PassphraseNeededError) Error() string {
	return fmt.Sprintf("%v (key %s)", ErrPassphraseNeeded, e.Public.Fingerprint())
}

// Unwrap makes the error match [ErrPassphraseNeeded].
func (e *PassphraseNeededError) Unwrap() error { return ErrPassphraseNeeded }

// MarshalOpenSSH writes the key as an OpenSSH private key file, under the
// passphrase (aes256-ctr, bcrypt) unless that is empty. The check number and
// the salt in the file come from crypto/rand inside golang.org/x/crypto/ssh,
// so two calls differ; the key itself came from the reader given to [NewKey].
func (k *PrivateKey) MarshalOpenSSH(comment string, passphrase []byte) ([]byte, error) {
	if k == nil || len(k.key) != ed25519.PrivateKeySize {
		return nil, errors.New("cannot write the key file: no private key")
	}
	comment = printable(comment)
	var (
		block *pem.Block
		err   error
	)
	if len(passphrase) == 0 {
		block, err = ssh.MarshalPrivateKey(k.key, comment)
	} else {
		block, err = ssh.MarshalPrivateKeyWithPassphrase(k.key, comment, passphrase)
	}
	if err != nil {
		return nil, fmt.Errorf("cannot write the key file: %w", err)
	}
	return pem.EncodeToMemory(block), nil
}

// ParsePrivateKey reads an OpenSSH private key file, written by this program or
// by ssh-keygen. Without a passphrase (empty) a protected file yields an error
// matching [ErrPassphraseNeeded]; with one that does not fit, [ErrWrongPassphrase].
// A passphrase given for an unprotected file is not used. Keys of another type
// are refused with the command that makes a fitting one, and so is a file whose
// public half does not belong to its private half: signing with such a pair
// can give the private key away.
func ParsePrivateKey(file, passphrase []byte) (*PrivateKey, error) {
	if len(file) > maxKeyFileBytes {
		return nil, errors.New("key file is far too long: give the private key file of one ed25519 key")
	}
	block, _ := pem.Decode(file)
	if block == nil {
		if strings.HasPrefix(string(file), "ssh-") {
			return nil, errors.New("this is a public key: give the private key file, the one without .pub")
		}
		return nil, fmt.Errorf("no private key in the file: an OpenSSH ed25519 key is needed, %s", makeKeyHint)
	}
	if block.Type != "OPENSSH PRIVATE KEY" {
		return nil, fmt.Errorf("key file of kind %q: an OpenSSH ed25519 key is needed, %s", printable(block.Type), makeKeyHint)
	}
	raw, err := ssh.ParseRawPrivateKey(file)
	var missing *ssh.PassphraseMissingError
	if errors.As(err, &missing) {
		if raw, err = openProtected(file, passphrase, missing.PublicKey); err != nil {
			return nil, err
		}
	} else if err != nil {
		return nil, fmt.Errorf("cannot read the key file: %s; %s", printable(strings.TrimPrefix(err.Error(), "ssh: ")), makeKeyHint)
	}
	pair, ok := raw.(*ed25519.PrivateKey)
	if !ok {
		return nil, errors.New("key of another type: an ed25519 key is needed, " + makeKeyHint)
	}
	k := keyFromSeed(pair.Seed())
	if subtle.ConstantTimeCompare(k.key, *pair) != 1 {
		return nil, errors.New("key file is damaged: its public half does not belong to its private half")
	}
	return k, nil
}

// openProtected opens a key file that needs a passphrase. pub is what the file
// says in the clear; it is nil in files that do not say.
func openProtected(file, passphrase []byte, pub ssh.PublicKey) (any, error) {
	if pub != nil && pub.Type() != keyType {
		return nil, fmt.Errorf("key of type %s: an ed25519 key is needed, %s", printable(pub.Type()), makeKeyHint)
	}
	if len(passphrase) == 0 {
		if pub == nil {
			return nil, ErrPassphraseNeeded
		}
		key, err := keyFromBlob(pub.Marshal())
		if err != nil {
			return nil, err
		}
		return nil, &PassphraseNeededError{Public: key}
	}
	raw, err := ssh.ParseRawPrivateKeyWithPassphrase(file, passphrase)
	switch {
	// This is how x/crypto/ssh says that the passphrase does not fit.
	case errors.Is(err, x509.IncorrectPasswordError):
		return nil, ErrWrongPassphrase
	case err != nil:
		return nil, fmt.Errorf("cannot open the key file: %s; write it again with: ssh-keygen -p -Z aes256-ctr -a 16 -f FILE",
			printable(strings.TrimPrefix(err.Error(), "ssh: ")))
	}
	return raw, nil
}
