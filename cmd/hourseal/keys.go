package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"net"
	"os"
	"path/filepath"

	"github.com/urfave/cli/v2"

	"hourseal/sign"
)

var (
	passphraseFlag = &cli.StringFlag{Name: "passphrase-file", Usage: "read the key's passphrase from the first line of `FILE`"}
	noInputFlag    = &cli.BoolFlag{Name: "no-input", Usage: "ask nothing"}
)

// signer opens the yard's signing key: the key file, with its passphrase from
// --passphrase-file or the terminal where it needs one, or ssh-agent where that
// holds the key. The function closes the agent's connection.
func (p *program) signer(c *cli.Context, file string) (sign.Signer, func(), error) {
	nothing := func() {}
	data, err := os.ReadFile(file)
	if errors.Is(err, fs.ErrNotExist) {
		public, pubErr := readPublicKey(file + ".pub")
		if pubErr != nil {
			return nil, nothing, usageError{fmt.Sprintf("no signing key at %s", file), "hourseal key new"}
		}
		return p.agentSigner(public)
	}
	if err != nil {
		return nil, nothing, err
	}
	if err := sameKey(data, file); err != nil {
		return nil, nothing, err
	}
	if info, err := os.Stat(file); err == nil && info.Mode().Perm()&0o077 != 0 && filepath.Separator == '/' {
		p.tell("The key %s can be read by other users of this machine: chmod 600 %s", file, file)
	}
	key, err := sign.ParsePrivateKey(data, nil)
	var needed *sign.PassphraseNeededError
	if !errors.As(err, &needed) {
		return signerOrNil(key, err), nothing, unusable(file, err)
	}
	if c.String(passphraseFlag.Name) == "" {
		if signer, done, err := p.agentSigner(needed.Public); err == nil {
			return signer, done, nil
		}
	}
	key, err = p.unlocked(c, data, file)
	return signerOrNil(key, err), nothing, err
}

// mostTries is how often a passphrase is asked for. Common practice, as ssh does by its
// NumberOfPasswordPrompts: ssh_config(5).
const mostTries = 3

// tries is how often it is asked for here: what a file says stays the same.
func (p *program) tries(c *cli.Context) int {
	if p.asks && !c.Bool(noInputFlag.Name) && c.String(passphraseFlag.Name) == "" {
		return mostTries
	}
	return 1
}

// unlocked opens a key file under a passphrase.
func (p *program) unlocked(c *cli.Context, data []byte, file string) (*sign.PrivateKey, error) {
	instead := "--passphrase-file FILE, or: ssh-add " + file
	for left := p.tries(c) - 1; ; left-- {
		passphrase, err := p.passphrase(c, "Passphrase for "+file+": ")
		if err != nil {
			return nil, err
		}
		if len(passphrase) == 0 {
			return nil, usageError{file + " needs its passphrase", instead}
		}
		key, err := sign.ParsePrivateKey(data, passphrase)
		switch {
		case !errors.Is(err, sign.ErrWrongPassphrase):
			return key, unusable(file, err)
		case left > 0:
			p.tell("That was not it.")
		default:
			return nil, usageError{file + ": " + err.Error(), instead}
		}
	}
}

// sameKey refuses a key file beside which another key's .pub stands: the yard
// would read out one fingerprint and sign under another. A file that says nothing
// of its public key, and one without a .pub, pass.
func sameKey(private []byte, file string) error {
	public, err := readPublicKey(file + ".pub")
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	key, err := sign.ParsePrivateKey(private, nil)
	var needed *sign.PassphraseNeededError
	own := public
	switch {
	case err == nil:
		own = key.Public()
	case errors.As(err, &needed):
		own = needed.Public
	}
	if own != public {
		return usageError{fmt.Sprintf("%s.pub is not the public key of %s", file, file),
			fmt.Sprintf("ssh-keygen -y -f %s > %s.pub", file, file)}
	}
	return nil
}

// signerOrNil keeps a nil key from becoming a non-nil interface.
func signerOrNil(key *sign.PrivateKey, err error) sign.Signer {
	if err != nil {
		return nil
	}
	return key
}

// unusable says that a file is no key that can sign here.
func unusable(file string, err error) error {
	if err == nil {
		return nil
	}
	return usageError{file + ": " + err.Error(), ""}
}

func atFile(file string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%s: %w", file, err)
}

// agentSigner asks the ssh-agent of SSH_AUTH_SOCK.
func (p *program) agentSigner(key sign.PublicKey) (sign.Signer, func(), error) {
	nothing := func() {}
	socket := p.getenv("SSH_AUTH_SOCK")
	if socket == "" {
		return nil, nothing, usageError{"no ssh-agent to ask for the key " + key.Fingerprint(), "start ssh-agent and add the key with ssh-add"}
	}
	conn, err := net.Dial("unix", socket)
	if err != nil {
		return nil, nothing, fmt.Errorf("reach ssh-agent: %w", err)
	}
	signer, err := sign.AgentSigner(conn, key)
	if err != nil {
		return nil, nothing, errors.Join(err, conn.Close())
	}
	return signer, func() { conn.Close() }, nil
}

// passphrase takes a passphrase from --passphrase-file or the terminal; none
// where neither is to be had.
func (p *program) passphrase(c *cli.Context, prompt string) ([]byte, error) {
	if file := c.String(passphraseFlag.Name); file != "" {
		data, err := p.readInput(file)
		if err != nil {
			return nil, missing(file, err)
		}
		line, _, _ := bytes.Cut(bytes.TrimPrefix(data, []byte("\uFEFF")), []byte("\n"))
		return bytes.TrimRight(line, "\r"), nil
	}
	if !p.asks || c.Bool(noInputFlag.Name) {
		return nil, nil
	}
	fmt.Fprint(p.stderr, clean(prompt))
	line, err := readSilently(int(os.Stdin.Fd()))
	fmt.Fprintln(p.stderr)
	return line, err
}

func readPublicKey(file string) (sign.PublicKey, error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return sign.PublicKey{}, err
	}
	key, _, err := sign.ParsePublicKey(data)
	return key, atFile(file, err)
}

const newKeyPrompt = "Passphrase for the new signing key (empty for none): "

// makeKey asks for a passphrase, and makes a signing key at file and its public half
// beside it.
func (p *program) makeKey(c *cli.Context, file, comment, prompt string) (*sign.PrivateKey, error) {
	passphrase, err := p.newPassphrase(c, prompt)
	if err != nil {
		return nil, err
	}
	key, err := sign.NewKey(p.random)
	if err != nil {
		return nil, err
	}
	if err := storeKey(key, file, comment, passphrase); err != nil {
		return nil, err
	}
	p.warnOfOpenKey(file, passphrase)
	return key, nil
}

// warnOfOpenKey says a word about a key that has no passphrase.
func (p *program) warnOfOpenKey(file string, passphrase []byte) {
	if len(passphrase) == 0 {
		p.tell("The key %s has no passphrase: whoever can read the file can sign as you. Keep it on this machine only.", file)
	}
}

// storeKey writes the two files of a key.
func storeKey(key *sign.PrivateKey, file, comment string, passphrase []byte) error {
	private, err := key.MarshalOpenSSH(comment, passphrase)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
		return err
	}
	return undisturbed(func() error {
		if err := writeNew(file, private, 0o600); err != nil {
			if errors.Is(err, fs.ErrExist) {
				return usageError{file + " is there already", "another name: hourseal key new --name NAME"}
			}
			return err
		}
		return replaceFile(file+".pub", []byte(key.Public().OpenSSHLine(comment)+"\n"))
	})
}

// newPassphrase asks twice, and again where the two differ.
func (p *program) newPassphrase(c *cli.Context, prompt string) ([]byte, error) {
	for left := p.tries(c) - 1; ; left-- {
		first, err := p.passphrase(c, prompt)
		if err != nil || len(first) == 0 || c.String(passphraseFlag.Name) != "" {
			return first, err
		}
		again, err := p.passphrase(c, "The same again: ")
		if err != nil {
			return nil, err
		}
		switch {
		case bytes.Equal(first, again):
			return first, nil
		case left > 0:
			p.tell("The two differ.")
		default:
			return nil, usageError{"the two passphrases differ", "run the command again"}
		}
	}
}
