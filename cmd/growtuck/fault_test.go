//go:build unix

package main

import (
	"bytes"
	"flag"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/save"
)

func TestWritersAndWhatIsThere(t *testing.T) {
	eachWriter(t, func(t *testing.T, s *sweep) {
		want := s.wanted(t)
		t.Run("old file", func(t *testing.T) {
			s.put(t, "out")
			require.NoError(t, os.Chmod(s.path("out"), 0o600))
			if s.input == "" {
				code, stderr := s.run(t, "out", false)
				s.refused(t, code, stderr)
				require.Contains(t, stderr, "already exists; use --force to overwrite")
				require.Equal(t, old, read(t, s.path("out")))
			}
			code, stderr := s.run(t, "out", true)
			require.Zero(t, code, stderr)
			require.Equal(t, want, read(t, s.path("out")))
			info, err := os.Stat(s.path("out"))
			require.NoError(t, err)
			require.Equal(t, fs.FileMode(0o600), info.Mode(), "permissions are kept")
			require.Empty(t, leftovers(t, s.dir))
		})
		t.Run("missing parent", func(t *testing.T) {
			code, stderr := s.run(t, "nowhere/deeper", true)
			if s.tree {
				require.Zero(t, code, stderr)
				require.Equal(t, want, read(t, s.path("nowhere/deeper")))
				return
			}
			s.refused(t, code, stderr)
			require.NoDirExists(t, filepath.Join(s.dir, "nowhere"))
		})
		t.Run("through a file", func(t *testing.T) {
			for _, force := range []bool{false, true} {
				code, stderr := s.run(t, "child.csv/deeper", force)
				s.refused(t, code, stderr)
			}
		})
		t.Run("a folder is there", func(t *testing.T) {
			require.NoError(t, os.MkdirAll(filepath.Join(s.path("taken"), "full"), 0o755))
			for _, force := range []bool{false, true} {
				code, stderr := s.run(t, "taken", force)
				s.refused(t, code, stderr)
				require.DirExists(t, filepath.Join(s.path("taken"), "full"))
			}
		})
		t.Run("a link to a file", func(t *testing.T) {
			if s.tree {
				t.Skip("the files of a folder are replaced as one")
			}
			require.NoError(t, os.Mkdir(filepath.Join(s.dir, "linked"), 0o755))
			real := filepath.Join(s.dir, "real")
			require.NoError(t, os.WriteFile(real, []byte(s.before()), 0o644))
			require.NoError(t, os.Symlink("../real", s.path("linked")))
			if s.input == "" {
				code, stderr := s.run(t, "linked", false)
				s.refused(t, code, stderr)
				require.Equal(t, old, read(t, real))
			}
			code, stderr := s.run(t, "linked", true)
			require.Zero(t, code, stderr)
			require.Equal(t, want, read(t, real), "the link is followed")
			info, err := os.Lstat(s.path("linked"))
			require.NoError(t, err)
			require.NotZero(t, info.Mode()&fs.ModeSymlink, "and stays one")
		})
		for name, to := range map[string]string{"a link to nowhere": "nowhere/at-all", "a link to itself": s.target, "a link to a folder": ".", "a link to a device": "/dev/null"} {
			t.Run(name, func(t *testing.T) {
				folder := strings.ReplaceAll(name, " ", "-")
				require.NoError(t, os.Mkdir(filepath.Join(s.dir, folder), 0o755))
				require.NoError(t, os.Symlink(to, s.path(folder)))
				for _, force := range []bool{false, true} {
					code, stderr := s.run(t, folder, force)
					s.refused(t, code, stderr)
					got, err := os.Readlink(s.path(folder))
					require.NoError(t, err)
					require.Equal(t, to, got)
				}
			})
		}
		t.Run("a pipe is there", func(t *testing.T) {
			if s.input != "" {
				t.Skip("it would be read until somebody writes into it")
			}
			require.NoError(t, os.Mkdir(filepath.Join(s.dir, "piped"), 0o755))
			require.NoError(t, syscall.Mkfifo(s.path("piped"), 0o644))
			for _, force := range []bool{false, true} {
				code, stderr := s.run(t, "piped", force)
				s.refused(t, code, stderr)
			}
		})
	})
}

func TestWritersWithoutPermission(t *testing.T) {
	eachWriter(t, func(t *testing.T, s *sweep) {
		s.put(t, "out")
		var as *syscall.SysProcAttr
		if os.Getuid() == 0 { // whom no permission stops: run as nobody
			as = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}}
			open, err := os.MkdirTemp("", "growtuck-sweep-") // those of TempDir are root's
			require.NoError(t, err)
			defer os.RemoveAll(open)
			require.NoError(t, os.Chmod(open, 0o755))
			require.NoError(t, os.CopyFS(filepath.Join(open, "work"), os.DirFS(s.dir)))
			program := filepath.Join(open, "growtuck")
			// Were it copied here, a run begun meanwhile could hold it open.
			require.NoError(t, exec.Command("cp", s.program, program).Run())
			s.dir, s.program = filepath.Join(open, "work"), program
		}
		require.NoError(t, os.Chmod(filepath.Join(s.dir, "out"), 0o555))
		defer os.Chmod(filepath.Join(s.dir, "out"), 0o755)
		cmd := s.command("out", true)
		cmd.SysProcAttr = as
		code, stderr := finish(t, cmd)
		s.refused(t, code, stderr)
		require.Contains(t, stderr, "permission denied")
		require.Equal(t, s.before(), read(t, s.path("out")))
	})
}

func TestWritersOnAFullDisk(t *testing.T) {
	eachWriter(t, func(t *testing.T, s *sweep) {
		disk, folder := filepath.Join(s.dir, "out"), "out"
		size := 4096 * (len(s.before())/4096 + 1) // the old file, and no more
		if s.tree {                               // which is made anew beside the folder
			folder, size = "out/put", size+4096
		}
		if s.readsBeside() {
			size += 4096
		}
		mount := exec.Command("mount", "-t", "tmpfs", "-o", fmt.Sprintf("size=%d", size), "growtuck", disk)
		if out, err := mount.CombinedOutput(); err != nil {
			t.Skipf("no small disk can be mounted here: %v: %s", err, out)
		}
		defer func() { require.NoError(t, exec.Command("umount", disk).Run()) }()
		require.NoError(t, os.MkdirAll(filepath.Join(s.dir, folder), 0o755))
		s.put(t, folder)
		code, stderr := s.run(t, folder, true)
		s.refused(t, code, stderr)
		require.Contains(t, stderr, "no space left on device")
		require.Equal(t, s.before(), read(t, s.path(folder)))
	})
}

// A limit on the size of files ends other programs by a signal.
func TestWritersAtTheLimitOfFileSize(t *testing.T) {
	eachWriter(t, func(t *testing.T, s *sweep) {
		s.put(t, "out")
		cmd := s.command("out", true)
		limited := exec.Command("sh", append([]string{"-c", `ulimit -f 1 && exec "$@"`, "sh"}, cmd.Args...)...)
		limited.Dir = s.dir
		code, stderr := finish(t, limited)
		if strings.Contains(stderr, "ulimit") {
			t.Skip("the shell cannot limit the size of files: " + stderr)
		}
		s.refused(t, code, stderr)
		require.Contains(t, stderr, "file too large")
		require.Equal(t, s.before(), read(t, s.path("out")))
	})
}

// What a killed run left is named and removed by the next.
func TestWritersRemoveWhatIsLeft(t *testing.T) {
	eachWriter(t, func(t *testing.T, s *sweep) {
		s.put(t, "out")
		left := filepath.Join("out", save.Prefix+"1a2b3c4d5e6f7")
		if s.tree {
			left = save.Prefix + "set-1a2b3c4d5e6f7"
			require.NoError(t, os.Mkdir(filepath.Join(s.dir, left), 0o700))
		}
		require.NoError(t, os.WriteFile(filepath.Join(s.dir, left+strings.Repeat("/body.csv", strings.Count(left, "set-"))), []byte("half"), 0o600))
		code, stderr := s.run(t, "out", true)
		require.Zero(t, code, stderr)
		require.Contains(t, stderr, "note: "+left+" was removed: a run that was killed had left it unfinished")
		require.Empty(t, leftovers(t, s.dir))
	})
}

var rounds = flag.Int("rounds", 2, "how often each command that writes is stopped by each signal")

// Killed at any moment, a run leaves the old file or the new one; stopped, no
// unfinished one beside it.
func TestWritersStopped(t *testing.T) {
	eachWriter(t, func(t *testing.T, s *sweep) {
		want := s.wanted(t)
		s.put(t, "out")
		start := time.Now()
		code, stderr := s.run(t, "out", true)
		require.Zero(t, code, stderr)
		whole := time.Since(start)
		ended := map[string]int{}
		for _, signal := range []syscall.Signal{syscall.SIGKILL, syscall.SIGTERM, syscall.SIGINT} {
			for range *rounds {
				s.put(t, "out")
				cmd := s.command("out", true)
				var stderr bytes.Buffer
				cmd.Stderr = &stderr
				require.NoError(t, cmd.Start())
				time.Sleep(rand.N(whole * 5 / 4))
				_ = cmd.Process.Signal(signal) // it may have ended
				_ = cmd.Wait()
				status := cmd.ProcessState.Sys().(syscall.WaitStatus)
				require.True(t, status.Signaled() && status.Signal() == signal || status.ExitStatus() == 0 || s.filter && status.ExitStatus() == exitUsage, "%v: %v %s", signal, cmd.ProcessState, &stderr)
				require.NotContains(t, stderr.String(), "goroutine ")
				got := read(t, s.path("out"))
				require.Contains(t, []string{s.before(), want}, got)
				if status.Exited() && status.ExitStatus() == 0 {
					require.Equal(t, want, got)
				}
				left := leftovers(t, s.dir)
				if signal != syscall.SIGKILL {
					require.Empty(t, left, signal)
				}
				for _, l := range left {
					require.NoError(t, os.RemoveAll(l))
					ended["left an unfinished file"]++
				}
				switch {
				case status.Exited() && status.ExitStatus() == 0:
					ended["finished"]++
				case got == want:
					ended["stopped after the write"]++
				default:
					ended["stopped before"]++
				}
				entries, err := os.ReadDir(filepath.Join(s.dir, "out"))
				require.NoError(t, err)
				if s.readsBeside() {
					entries = entries[1:]
				}
				if !s.tree {
					require.Contains(t, []int{1, 1 + s.beside}, len(entries))
				}
			}
		}
		t.Log(ended)
	})
}

// Where nobody reads or can store what is printed, the file is whole all the
// same, or that of a filter is not written; the exit status says that not all
// was done.
func TestWritersWhoseOutputIsLost(t *testing.T) {
	eachWriter(t, func(t *testing.T, s *sweep) {
		want := s.wanted(t)
		if s.filter {
			want = s.before()
		}
		for name, output := range lostOutputs(t) {
			s.put(t, "out")
			cmd := s.command("out", true)
			cmd.Stdout = output
			code, stderr := finish(t, cmd)
			requireLost(t, name, cmd, code, stderr)
			require.Equal(t, want, read(t, s.path("out")), name)
			require.Empty(t, leftovers(t, s.dir))
		}
	})
}

// The commands that only print say so too.
func TestOutputIsLost(t *testing.T) {
	s := newSweep(t, writer{})
	require.NoError(t, os.WriteFile(filepath.Join(s.dir, "proposed.csv"), []byte("chart,size,sex,measurement,statistic,value,unit,source,where,basis,review,note\n"), 0o644))
	for _, args := range []string{
		"size 3", "size 3 --format json", "size 3 --format csv", "size 3 --format markdown", "profile child.csv", "blend child.csv", "garment hat child.csv", "garment",
		"plan hat child.csv" + sweepHow, "charts", "measurements", "sources", "rules", "version", "rows", "rows proposed.csv --review", "help", "size --help", "completion bash",
	} {
		for name, output := range lostOutputs(t) {
			cmd := exec.Command(s.program, strings.Fields(args)...)
			cmd.Dir, cmd.Stdout = s.dir, output
			code, stderr := finish(t, cmd)
			requireLost(t, args+": "+name, cmd, code, stderr)
		}
	}
}

func lostOutputs(t *testing.T) map[string]*os.File {
	all := map[string]*os.File{}
	if full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0); err == nil {
		t.Cleanup(func() { full.Close() })
		all["full"] = full
	}
	r, w, err := os.Pipe()
	require.NoError(t, err)
	require.NoError(t, r.Close())
	t.Cleanup(func() { w.Close() })
	all["closed"] = w
	return all
}

// requireLost wants a run to have ended as others do: by the signal of a closed
// pipe, silently, or with 2 and the reason.
func requireLost(t *testing.T, name string, cmd *exec.Cmd, code int, stderr string) {
	t.Helper()
	if strings.HasSuffix(name, "closed") {
		status := cmd.ProcessState.Sys().(syscall.WaitStatus)
		require.True(t, status.Signaled() && status.Signal() == syscall.SIGPIPE, "%s: %v %s", name, cmd.ProcessState, stderr)
		require.NotContains(t, stderr, "standard output", name)
		return
	}
	require.Equal(t, exitUsage, code, "%s: %s", name, stderr)
	require.Contains(t, stderr, "standard output: write /dev/stdout: no space left on device", name)
}
