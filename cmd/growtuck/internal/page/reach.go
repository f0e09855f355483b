package page

import (
	"fmt"
	"io"
	"net"
	"strings"

	"rsc.io/qr"
)

// Loopback reports whether an address is reached from this machine alone.
func Loopback(a net.Addr) bool {
	t, ok := a.(*net.TCPAddr)
	return ok && t.IP.IsLoopback()
}

// Addresses are what browsers open for a page that listens on an address: of a machine
// with the interfaces' addresses. Where it listens on all, those that a phone in the same
// network reaches come first, and localhost last.
func Addresses(a net.Addr, interfaces []net.Addr) []string {
	t, ok := a.(*net.TCPAddr)
	if !ok || !t.IP.IsUnspecified() {
		return []string{a.String()}
	}
	var all, others []string
	for _, i := range interfaces {
		n, ok := i.(*net.IPNet)
		if !ok || !n.IP.IsGlobalUnicast() {
			continue
		}
		address := (&net.TCPAddr{IP: n.IP, Port: t.Port}).String()
		if n.IP.To4() != nil && n.IP.IsPrivate() {
			all = append(all, address)
		} else {
			others = append(others, address)
		}
	}
	return append(append(all, others...), fmt.Sprintf("localhost:%d", t.Port))
}

// quiet is the light border of a QR code, in modules.
const quiet = 4

// WriteQR writes a text as a QR code for a terminal, two modules a character: light ones
// are blocks. A terminal that has colours is told black and white.
func WriteQR(w io.Writer, text string, colours bool) error {
	code, err := qr.Encode(text, qr.L)
	if err != nil {
		return err
	}
	blocks := []rune("█▀▄ ") // both light, the upper, the lower, none
	var out strings.Builder
	for y := -quiet; y < code.Size+quiet; y += 2 {
		if colours {
			out.WriteString("\x1b[97;40m")
		}
		for x := -quiet; x < code.Size+quiet; x++ {
			i := 0
			if code.Black(x, y) {
				i += 2
			}
			if code.Black(x, y+1) || y+1 == code.Size+quiet {
				i++
			}
			out.WriteRune(blocks[i])
		}
		if colours {
			out.WriteString("\x1b[0m")
		}
		out.WriteString("\n")
	}
	_, err = io.WriteString(w, out.String())
	return err
}
