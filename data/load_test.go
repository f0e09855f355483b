package data

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"growtuck/testdata/bounded"
)

// copyOf returns the embedded tables as files that can be changed.
func copyOf(t *testing.T) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	require.NoError(t, fs.WalkDir(Embedded(), ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		raw, err := fs.ReadFile(Embedded(), path)
		files[path] = &fstest.MapFile{Data: raw}
		return err
	}))
	return files
}

// messages returns the joined errors one by one.
func messages(err error) []string {
	var joined interface{ Unwrap() []error }
	if errors.As(err, &joined) {
		var all []string
		for _, e := range joined.Unwrap() {
			all = append(all, messages(e)...)
		}
		return all
	}
	if err == nil {
		return nil
	}
	return []string{err.Error()}
}

const (
	sourceHead = "id,title,publisher,edition,year,rights,credit,credit_asked\n"
	sourceRow  = "a,A Book,A Publisher,first,1999,facts,A Book,yes\n"
)

func TestLoadSaysWhatIsWrongAndWhere(t *testing.T) {
	for _, tt := range []struct {
		name, table string
		want        []string
	}{
		{"empty file", "", []string{"sources.csv:1: no header: id,title,publisher,edition,year,rights,credit,credit_asked,locator wanted"}},
		{"renamed column", strings.Replace(sourceHead, "year", "yr", 1) + sourceRow,
			[]string{`sources.csv:1: header is "id,title,publisher,edition,yr,rights,credit,credit_asked"; want "id,title,publisher,edition,year,rights,credit,credit_asked,locator"`}},
		{"dropped column", "id,title,publisher,edition,year,rights\n",
			[]string{`sources.csv:1: header is "id,title,publisher,edition,year,rights"; want "id,title,publisher,edition,year,rights,credit,credit_asked,locator"`}},
		{"columns in another order", "title,id,publisher,edition,year,rights,credit,credit_asked\n",
			[]string{`sources.csv:1: header is "title,id,publisher,edition,year,rights,credit,credit_asked"; want "id,title,publisher,edition,year,rights,credit,credit_asked,locator"`}},
		{"wrong delimiter", strings.ReplaceAll(sourceHead+sourceRow, ",", ";"),
			[]string{`sources.csv:1: header is "id;title;publisher;edition;year;rights;credit;credit_asked"; want "id,title,publisher,edition,year,rights,credit,credit_asked,locator"`}},
		{"byte order mark", "\ufeff" + sourceHead + sourceRow,
			[]string{"sources.csv:1:1: begins with a byte order mark; save it as UTF-8 without one"}},
		{"too few fields", sourceHead + sourceRow + "b,B\n" + sourceRow, []string{"sources.csv:3: 2 fields; want 8"}},
		{"too many fields", sourceHead + "a,A Book,A Publisher,first,1999,facts,A Book,yes,\n", []string{"sources.csv:2: 9 fields; want 8"}},
		{"quote never closed", sourceHead + `a,"A Book,A Publisher,first,1999,facts,A Book,yes` + "\n",
			[]string{`sources.csv:2:51: extraneous or missing " in quoted-field`}},
		{"bare quote", sourceHead + `a,A "Book,A Publisher,first,1999,facts,A Book,yes` + "\n",
			[]string{`sources.csv:2:5: bare " in non-quoted-field`}},
		{"not a number", sourceHead + strings.Replace(sourceRow, "1999", "MCM", 1),
			[]string{`sources.csv:2:28: year: "MCM" is not a number; want digits with a point, such as 24.5`}},
		{"decimal comma", sourceHead + strings.Replace(sourceRow, "1999", `"19,9"`, 1),
			[]string{`sources.csv:2:28: year: "19,9" is not a number; want digits with a point, such as 24.5`}},
		{"not a number, literally", sourceHead + strings.Replace(sourceRow, "1999", "NaN", 1),
			[]string{`sources.csv:2:28: year: "NaN" is not a number; want digits with a point, such as 24.5`}},
		{"infinite", sourceHead + strings.Replace(sourceRow, "1999", "-Inf", 1),
			[]string{`sources.csv:2:28: year: "-Inf" is not a number; want digits with a point, such as 24.5`}},
		{"beyond a float", sourceHead + strings.Replace(sourceRow, "1999", "1e999", 1),
			[]string{`sources.csv:2:28: year: "1e999" is not a number; want digits with a point, such as 24.5`}},
		{"space around a key", sourceHead + " " + sourceRow, []string{`sources.csv:2:1: id: " a" has space around it`}},
		{"every fault, not the first", sourceHead + " " + sourceRow + "b\n" + strings.Replace(sourceRow, "1999", "x", 1),
			[]string{`sources.csv:2:1: id: " a" has space around it`, "sources.csv:3: 1 fields; want 8",
				`sources.csv:4:28: year: "x" is not a number; want digits with a point, such as 24.5`}},
		{"line ends of another system are read", strings.ReplaceAll(sourceHead+sourceRow, "\n", "\r\n"), nil},
		{"no line end at the end", sourceHead + strings.TrimSuffix(sourceRow, "\n"), nil},
		{"quotes and line ends inside a field", sourceHead + "a,\"A \"\"Book\"\",\nagain\",A Publisher,first,1999,facts,A Book,yes\n", nil},
		{"no rows", sourceHead, nil},
	} {
		t.Run(tt.name, func(t *testing.T) {
			files := copyOf(t)
			files["sources.csv"] = &fstest.MapFile{Data: []byte(tt.table)}
			tables, err := Load(files)
			require.Equal(t, tt.want, messages(err))
			require.Equal(t, tt.want == nil, tables != nil)
			for _, m := range tt.want {
				require.NotContains(t, m, "%!")
			}
		})
	}
}

func TestLoadSaysThatANumberIsMissing(t *testing.T) {
	files := copyOf(t)
	files["body.csv"] = &fstest.MapFile{Data: []byte(strings.Join(columnNames[Body](), ",") +
		"\ncraft,4,both,chest,given,,cm,craft-2018,p,published,r,,\n")}
	_, err := Load(files)
	require.Equal(t, []string{"body.csv:2:26: value: is empty; want a number"}, messages(err))
}

func TestLoadReadsWhatIsWritten(t *testing.T) {
	files := copyOf(t)
	files["sources.csv"] = &fstest.MapFile{Data: []byte(sourceHead + "a,\"A \"\"Book\"\", again\",P,first,,facts,C,yes\n")}
	tables, err := Load(files)
	require.NoError(t, err)
	require.Equal(t, []Source{{Line: 2, ID: "a", Title: `A "Book", again`, Publisher: "P", Edition: "first", Rights: "facts", Credit: "C", CreditAsked: "yes"}}, tables.Sources)
}

func TestLoadNamesEveryMissingTable(t *testing.T) {
	_, err := Load(fstest.MapFS{})
	got := messages(err)
	require.Len(t, got, len(Schemas())-1-len(LaterFiles()), "all but the log, which Load does not read, and those that older editions lack")
	require.Equal(t, "sources.csv: cannot be opened: open sources.csv: file does not exist", got[0])
}

func TestLoadRefusesATableThatIsTooBig(t *testing.T) {
	files := copyOf(t)
	files["ease.csv"] = &fstest.MapFile{Data: make([]byte, MaxBytes+1)}
	_, err := Load(files)
	require.EqualError(t, err, "ease.csv: is 67108865 bytes; at most 67108864 are read")
}

func FuzzLoad(f *testing.F) {
	f.Add(sourceHead + sourceRow)
	f.Add("")
	f.Add("\ufeff" + sourceHead)
	f.Add(sourceHead + "\"a\"\"\n,,,,,,\n")
	f.Fuzz(func(t *testing.T, table string) {
		defer bounded.By(t, 64<<20)()
		files := fstest.MapFS{"sources.csv": &fstest.MapFile{Data: []byte(table)}}
		var rows []Source
		err := readTable(loader{fsys: files, texts: make(map[string]string), room: make([]byte, 512)}, "sources.csv", &rows, (*record).source)
		if err == nil {
			require.LessOrEqual(t, len(rows), strings.Count(table, "\n")+1)
		}
		for _, m := range messages(err) {
			require.True(t, strings.HasPrefix(m, "sources.csv:"), m)
		}
	})
}

// Plain tables are split without encoding/csv. With line ends of another system
// it reads them, and finds the same rows at the same lines.
func TestPlainTablesReadAsByEncodingCSV(t *testing.T) {
	plain, err := Load(Embedded())
	require.NoError(t, err)
	files := copyOf(t)
	for name, f := range files {
		f.Data = []byte(strings.ReplaceAll(string(f.Data), "\n", "\r\n"))
		var rows []Source
		require.False(t, readPlain(string(f.Data), "", &rows, columnNames[Source](), (*record).source), name)
	}
	other, err := Load(files)
	require.NoError(t, err)
	plain.text, other.text = nil, nil
	require.Equal(t, other, plain)
}

// Whatever is read as plain, encoding/csv reads alike.
func FuzzPlain(f *testing.F) {
	for _, row := range []string{sourceRow, "a,\"A, Book\",P,first,,facts,C\n", "\"a\",b,c,d,1,\"\",g", "a,b\"c,d\n", "\"a\"b,,,,,,\n", "\n", ",,,,,,\n\n"} {
		f.Add(row)
	}
	f.Fuzz(func(t *testing.T, text string) {
		defer bounded.By(t, 64<<20)()
		var plain, rows []Source
		if !readPlain(sourceHead+text, "", &plain, columnNames[Source](), (*record).source) {
			return
		}
		files := fstest.MapFS{"sources.csv": &fstest.MapFile{Data: []byte(strings.ReplaceAll(sourceHead+text, "\n", "\r\n"))}}
		l := loader{fsys: files, texts: make(map[string]string), room: make([]byte, 512)}
		require.NoError(t, readTable(l, "sources.csv", &rows, (*record).source))
		require.Equal(t, len(rows), len(plain))
		for i := range rows {
			require.Equal(t, rows[i], plain[i])
		}
	})
}

func TestLoadReadsOnlyWhatIsNamed(t *testing.T) {
	tables, err := Load(Embedded(), "sources.csv", "yarns.csv")
	require.NoError(t, err)
	require.NotEmpty(t, tables.Sources)
	require.NotEmpty(t, tables.Yarns)
	require.Empty(t, tables.Body)
}

// An edition before 1.1 has no practice.csv and no exceptions.csv, one before 2.0
// no added.csv: the built-in ones are read. Its sources.csv does not say which credit lines are asked for:
// all are shown.
func TestLoadReadsOlderEditions(t *testing.T) {
	now, err := Load(Embedded())
	require.NoError(t, err)
	files := copyOf(t)
	for _, name := range LaterFiles() {
		delete(files, name)
	}
	older := func(file string, columns int) []byte {
		rows, err := csv.NewReader(bytes.NewReader(files[file].Data)).ReadAll()
		require.NoError(t, err)
		for i := range rows {
			rows[i] = rows[i][:len(rows[i])-columns]
		}
		var b bytes.Buffer
		require.NoError(t, csv.NewWriter(&b).WriteAll(rows))
		return b.Bytes()
	}
	files["body.csv"] = &fstest.MapFile{Data: older("body.csv", 1)}
	old := older("sources.csv", 2)
	files["sources.csv"] = &fstest.MapFile{Data: old}
	tables, err := Load(files)
	require.NoError(t, err)
	require.NoError(t, tables.Check(rowRules))
	require.Equal(t, now.Practice, tables.Practice)
	require.Equal(t, now.Exceptions, tables.Exceptions)
	require.Len(t, tables.Sources, len(now.Sources))
	for _, s := range tables.Sources {
		require.Equal(t, "yes", s.CreditAsked, s.ID)
	}
	require.Len(t, tables.Body, len(now.Body))
	require.Nil(t, tables.Body[len(tables.Body)-1].N)

	files["sources.csv"] = &fstest.MapFile{Data: append(old, "x\n"...)}
	_, err = Load(files)
	require.EqualError(t, err, fmt.Sprintf("sources.csv:%d: 1 fields; want 7", len(now.Sources)+2))
}
