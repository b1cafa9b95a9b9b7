package term

import (
	"bytes"
	"os"
	"time"
)

// Keyboard reads the terminal's keys and keeps key sequences whole. An arrow
// arrives as several bytes. On a busy machine a read may end after the first, which
// alone is the Esc key and would leave the screen. It embeds the file because the
// terminal library asks for the descriptor.
type Keyboard struct {
	*os.File
	gap time.Duration // longest wait for the rest of a sequence
}

// NewKeyboard reads a terminal's keys.
func NewKeyboard(file *os.File) Keyboard { return Keyboard{file, sequenceGap} }

// sequenceGap is the longest wait for the rest of a key sequence. A lone Esc acts
// that much later.
const sequenceGap = 30 * time.Millisecond

// Read reads what was typed. If it ends within a key sequence, it waits a moment
// for the rest.
func (k Keyboard) Read(p []byte) (int, error) {
	n, err := k.File.Read(p)
	for err == nil && n < len(p) && cutShort(p[:n]) && typed(k.Fd(), k.gap) {
		var more int
		more, err = k.File.Read(p[n:])
		n += more
	}
	return n, err
}

// cutShort reports whether the bytes end within a key sequence: after ESC, or after
// ESC [ or ESC O without their closing letter or ~.
func cutShort(typed []byte) bool {
	at := bytes.LastIndexByte(typed, 0x1b)
	if at < 0 {
		return false
	}
	rest := typed[at+1:]
	if len(rest) == 0 {
		return true
	}
	if rest[0] != '[' && rest[0] != 'O' {
		return false
	}
	return !bytes.ContainsFunc(rest[1:], func(r rune) bool { return r >= '@' && r <= '~' })
}
