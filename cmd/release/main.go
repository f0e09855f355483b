// Command release builds the program for every system that it is released for, and
// packs each with its licence, notices, help for the terminal and what the system's
// desktop asks for. The same source gives the same bytes.
//
//	go run ./cmd/release DIR
//
// DIR gets an archive for each system, a list of what the program is built of
// (SPDX), and SHA256SUMS. It is run in the folder of the module, with the go command.
package main

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"runtime"
	"strings"
)

// A target is a system that the program is released for.
type target struct{ system, arch string }

var targets = []target{{"linux", "amd64"}, {"linux", "arm64"}, {"darwin", "amd64"}, {"darwin", "arm64"}, {"windows", "amd64"}, {"windows", "arm64"}}

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: go run ./cmd/release DIR")
		os.Exit(2)
	}
	if err := release(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "release:", err)
		os.Exit(1)
	}
}

func release(dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	work, err := os.MkdirTemp("", "growtuck-release-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(work)

	own := filepath.Join(work, "own")
	if err := build(own, target{runtime.GOOS, runtime.GOARCH}); err != nil {
		return err
	}
	version, err := versionOf(own)
	if err != nil {
		return err
	}
	common, err := commonFiles()
	if err != nil {
		return err
	}
	var sums strings.Builder
	add := func(name string, content []byte) error {
		fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(content), name)
		return os.WriteFile(filepath.Join(dir, name), content, 0o644)
	}
	for _, t := range targets {
		out := filepath.Join(work, t.system+t.arch)
		if err := build(out, t); err != nil {
			return err
		}
		program, err := os.ReadFile(out)
		if err != nil {
			return err
		}
		name := strings.Join([]string{"growtuck", version, t.system, t.arch}, "-")
		files := append(t.files(program), common...)
		for i := range files {
			files[i].name = path.Join(name, files[i].name)
		}
		pack, ending := tarGz, ".tar.gz"
		if t.system == "windows" {
			pack, ending = zipped, ".zip"
		}
		archive, err := pack(files)
		if err != nil {
			return err
		}
		if err := add(name+ending, archive); err != nil {
			return err
		}
	}
	parts, err := billOfMaterials(own, version)
	if err != nil {
		return err
	}
	if err := add("growtuck-"+version+".spdx.json", parts); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, "SHA256SUMS"), []byte(sums.String()), 0o644)
}

// build compiles the program.
func build(out string, t target) error {
	cmd := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w", "-o", out, "./cmd/growtuck")
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+t.system, "GOARCH="+t.arch)
	if said, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("building for %s/%s: %w\n%s", t.system, t.arch, err, said)
	}
	return nil
}

// versionOf is the version that a program says it is.
func versionOf(program string) (string, error) {
	said, err := exec.Command(program, "version", "--format", "json").Output()
	if err != nil {
		return "", err
	}
	_, after, ok := bytes.Cut(said, []byte(`"program": "`))
	version, _, closed := bytes.Cut(after, []byte(`"`))
	if !ok || !closed {
		return "", fmt.Errorf("%q names no version", said)
	}
	return strings.Trim(string(version), "()"), nil
}

// A file is a file of an archive.
type file struct {
	name    string
	content []byte
	runs    bool // is a program
}

// files are what a system gets besides the files that all get.
func (t target) files(program []byte) []file {
	switch t.system {
	case "windows":
		return []file{{"growtuck.exe", program, true}}
	case "darwin":
		// Without a bundle Finder would start the program in a terminal.
		return []file{{"growtuck.app/Contents/MacOS/growtuck", program, true}, {"growtuck.app/Contents/Info.plist", []byte(infoPlist), false}}
	}
	return []file{{"growtuck", program, true}, {"growtuck.desktop", []byte(desktopEntry), true}}
}

const infoPlist = `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE plist PUBLIC "-//Apple//DTD PLIST 1.0//EN" "http://www.apple.com/DTDs/PropertyList-1.0.dtd">
<plist version="1.0">
<dict>
	<key>CFBundleExecutable</key><string>growtuck</string>
	<key>CFBundleIdentifier</key><string>growtuck</string>
	<key>CFBundleName</key><string>growtuck</string>
	<key>CFBundlePackageType</key><string>APPL</string>
	<key>LSUIElement</key><true/>
</dict>
</plist>
`

// The entry finds the program beside itself: %k is the entry's own path, or by some
// desktops its folder.
const desktopEntry = `[Desktop Entry]
Type=Application
Version=1.0
Name=growtuck
Comment=Children's body measurements by size, and garments to fit a child
Exec=sh -c "d=\\$1; [ -d \\"\\$d\\" ] || d=\\$(dirname \\"\\$d\\"); exec \\"\\$d/growtuck\\" page --open" growtuck %k
Icon=growtuck
Terminal=false
Categories=Education;
`

// commonFiles are the files of every archive: what to read, help for the terminal, and
// the icon. The help is what the program itself says.
func commonFiles() ([]file, error) {
	files := []file{}
	for name, source := range map[string]string{"README.md": "README.md", "LICENSE": "LICENSE", "NOTICES": "cmd/growtuck/NOTICES", "CHANGELOG.md": "cmd/growtuck/CHANGELOG.md",
		"growtuck.svg": "cmd/growtuck/internal/page/static/mark.svg", "growtuck.png": "cmd/growtuck/internal/page/static/mark-512.png"} {
		content, err := os.ReadFile(source)
		if err != nil {
			return nil, err
		}
		files = append(files, file{name: name, content: content})
	}
	dir, err := os.MkdirTemp("", "growtuck-manual-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	if said, err := exec.Command(".ci/manual", dir).CombinedOutput(); err != nil {
		return nil, fmt.Errorf(".ci/manual: %w\n%s", err, said)
	}
	pages, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	for _, p := range pages {
		content, err := os.ReadFile(filepath.Join(dir, p.Name()))
		if err != nil {
			return nil, err
		}
		folder := "completion/"
		if strings.HasSuffix(p.Name(), ".1") {
			folder = "man/"
		}
		files = append(files, file{name: folder + p.Name(), content: content})
	}
	return files, nil
}
