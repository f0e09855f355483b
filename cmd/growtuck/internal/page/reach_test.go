package page

import (
	"net"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"rsc.io/qr"
)

func TestAddresses(t *testing.T) {
	listen := func(s string) net.Addr {
		a, err := net.ResolveTCPAddr("tcp", s)
		require.NoError(t, err)
		return a
	}
	var interfaces []net.Addr
	for _, s := range []string{"127.0.0.1/8", "::1/128", "fe80::1/64", "203.0.113.7/24", "2001:db8::7/64", "192.168.1.23/24"} {
		ip, n, err := net.ParseCIDR(s)
		require.NoError(t, err)
		interfaces = append(interfaces, &net.IPNet{IP: ip, Mask: n.Mask})
	}
	for at, want := range map[string][]string{
		"127.0.0.1:8474":    {"127.0.0.1:8474"},
		"192.168.1.23:8474": {"192.168.1.23:8474"},
		"0.0.0.0:8474":      {"192.168.1.23:8474", "203.0.113.7:8474", "[2001:db8::7]:8474", "localhost:8474"},
		"[::]:80":           {"192.168.1.23:80", "203.0.113.7:80", "[2001:db8::7]:80", "localhost:80"},
	} {
		require.Equal(t, want, Addresses(listen(at), interfaces), at)
	}
	require.Equal(t, []string{"localhost:1"}, Addresses(listen("0.0.0.0:1"), nil))
}

// The code is that of the address, dark on light, with a light border.
func TestWriteQR(t *testing.T) {
	const address = "http://192.168.1.23:8474/"
	code, err := qr.Encode(address, qr.L)
	require.NoError(t, err)
	var out strings.Builder
	require.NoError(t, WriteQR(&out, address, false))
	lines := strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n")
	require.Len(t, lines, (code.Size+2*quiet+1)/2)
	for i, line := range lines {
		row := []rune(line)
		require.Len(t, row, code.Size+2*quiet)
		for x, r := range row {
			y := 2*i - quiet
			require.Equal(t, code.Black(x-quiet, y), strings.ContainsRune("▄ ", r), "%d, %d", x, y)
			if y+1 < code.Size+quiet {
				require.Equal(t, code.Black(x-quiet, y+1), strings.ContainsRune("▀ ", r), "%d, %d", x, y+1)
			}
		}
	}
	var coloured strings.Builder
	require.NoError(t, WriteQR(&coloured, address, true))
	require.Equal(t, out.String(), strings.NewReplacer("\x1b[97;40m", "", "\x1b[0m", "").Replace(coloured.String()))
}
