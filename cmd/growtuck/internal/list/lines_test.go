package list

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/require"
)

// blocks reads a list to its end.
func blocks(t *testing.T, in io.Reader) (text string, firsts []int, long []bool) {
	t.Helper()
	r := newLineReader(in)
	b := newBlock()
	for {
		err := r.block(b)
		if err == io.EOF {
			return text, firsts, long
		}
		require.NoError(t, err)
		require.NotEmpty(t, b.lines)
		text += string(b.lines)
		firsts = append(firsts, b.first)
		long = append(long, b.long)
	}
}

func TestBlocksAreTheList(t *testing.T) {
	line := strings.Repeat("x", 99) + "\n"
	for _, text := range []string{
		"", "\n", "a", "a\n", "a\nb", "a\r\nb\r\n", "\n\n\n",
		strings.Repeat(line, 10_000), strings.Repeat(line, 10_000) + "end",
		strings.Repeat("y", blockSize-1) + "\n" + line, strings.Repeat("y", blockSize) + "\n" + line,
		line + strings.Repeat("y", 3*blockSize+5) + "\n" + line, strings.Repeat("y", 2*blockSize),
	} {
		for name, in := range map[string]io.Reader{
			"whole": strings.NewReader(text), "halves": iotest.HalfReader(strings.NewReader(text)), "late end": iotest.DataErrReader(strings.NewReader(text)),
		} {
			got, _, _ := blocks(t, in)
			require.True(t, text == got, "%s: %d bytes of %d", name, len(got), len(text))
		}
	}
}

func TestBlocksAreNumbered(t *testing.T) {
	short := "a\nb\n"
	tooLong := strings.Repeat("y", blockSize+10) + "\n"
	_, firsts, long := blocks(t, strings.NewReader(short+tooLong+short+"end"))
	require.Equal(t, []int{1, 3, 3, 4, 6}, firsts)
	require.Equal(t, []bool{false, true, true, false, false}, long)
}

// A list that comes slowly is read as it comes.
func TestBlocksDoNotWait(t *testing.T) {
	in, out := io.Pipe()
	r, b := newLineReader(in), newBlock()
	go func() { _, _ = out.Write([]byte("a\nb")) }()
	require.NoError(t, r.block(b))
	require.Equal(t, "a\n", string(b.lines))
	require.NoError(t, out.Close())
	require.NoError(t, r.block(b))
	require.Equal(t, "b", string(b.lines))
	require.Equal(t, io.EOF, r.block(b))
}

func TestHeadOfAList(t *testing.T) {
	r := newLineReader(iotest.OneByteReader(strings.NewReader("\ufeffid,height\r\n1,104\n")))
	start, err := r.peek()
	require.NoError(t, err)
	require.NotContains(t, string(start), "\ufeff")
	line, err := r.next()
	require.NoError(t, err)
	require.Equal(t, "id,height\r\n", string(line))
	b := newBlock()
	require.NoError(t, r.block(b))
	require.Equal(t, 2, b.first)

	for _, text := range []string{"\xff\xfei\x00d\x00\n\x001\x00\n\x00", "id\r1\r"} { // UTF-16, and CR
		r = newLineReader(iotest.OneByteReader(strings.NewReader(text)))
		line, err = r.next()
		require.NoError(t, err)
		require.Equal(t, "id\n", string(line))
		line, err = r.next()
		require.NoError(t, err)
		require.Equal(t, "1\n", string(line))
	}
	_, err = newLineReader(strings.NewReader(strings.Repeat("x", 2*blockSize))).next()
	require.ErrorIs(t, err, errNoLines)
	_, err = newLineReader(iotest.ErrReader(errors.New("torn"))).next()
	require.EqualError(t, err, "torn")
	require.ErrorIs(t, newLineReader(nothing{}).block(newBlock()), io.ErrNoProgress)
}

// nothing is a reader that never gives anything.
type nothing struct{}

func (nothing) Read([]byte) (int, error) { return 0, nil }

func TestSplitLine(t *testing.T) {
	tests := []struct {
		line string
		sep  separator
		want []string
		err  string
	}{
		{"", ',', []string{""}, ""},
		{"a,b,,", ',', []string{"a", "b", "", ""}, ""},
		{`1,"tall, slim",x`, ',', []string{"1", "tall, slim", "x"}, ""},
		{`"9 3/4""","",""""`, ',', []string{`9 3/4"`, "", `"`}, ""},
		{`9 3/4",x`, ',', []string{`9 3/4"`, "x"}, ""},
		{"a;24,5", ';', []string{"a", "24,5"}, ""},
		{"a\t24,5\t", '\t', []string{"a", "24,5", ""}, ""},
		{`a,"b`, ',', nil, "not closed"},
		{`a,"b"c,d`, ',', nil, "goes on after"},
		{`"`, ',', nil, "not closed"},
		{`"""`, ',', nil, "not closed"},
	}
	for _, tt := range tests {
		cells, _, wrong := splitLine([]byte(tt.line), tt.sep, nil, nil)
		if tt.err != "" {
			require.NotNil(t, wrong, tt.line)
			require.Contains(t, wrong.Reason, tt.err)
			continue
		}
		require.Nil(t, wrong, tt.line)
		var got []string
		for _, c := range cells {
			got = append(got, string(c.text))
			require.True(t, bytes.HasPrefix([]byte(tt.line)[c.at-1:], c.raw))
		}
		require.Equal(t, tt.want, got, tt.line)
	}
}
