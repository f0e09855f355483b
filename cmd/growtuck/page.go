package main

import (
	"context"
	"fmt"
	"io"
	"net"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/page"
	"growtuck/cmd/growtuck/internal/site"
	"growtuck/cmd/growtuck/internal/work"
)

// pageAddress is where the page is served unless --listen says otherwise. It
// is fixed, so that an address that was kept can be opened again.
const pageAddress = "127.0.0.1:8474"

func newPageCommand(a *app) *cobra.Command {
	var listen, folder string
	var force, open bool
	cmd := &cobra.Command{
		Use:     "page",
		GroupID: groupWork,
		Short:   "A page in the browser, served from this machine",
		Long: `page serves a page for the browser: from a child's measurements to a plan in
stitches, a view of the charts for designers, and one that checks proposed rows.
It prints the address to open; Ctrl+C stops it.

The page is served to this machine alone, loads nothing from the network, and
stores and logs nothing that you enter. The browser keeps it with the tab, so that
going back and loading again find it, and not in its history: an address that holds
it, to bookmark or to share, is behind a link on the page. Without scripts it is in
every address. --listen serves it to other machines too, such as
a phone in the same network (--listen 0.0.0.0:8474): it then prints a code to point
the phone at. There is no password.

--open is for an icon on the desktop: growtuck without arguments, started by a
double click, is growtuck page --open.

--site writes the page as a folder for any web server instead: the program runs in
the browser, and offline after the first visit. It is compiled from the source, so
it takes a clone and Go.

/api/ answers with the documents of --format json; /api/openapi.json describes it.`,
		Example: `  growtuck page
  growtuck page --listen 127.0.0.1:0
  growtuck page --listen 0.0.0.0:8474
  growtuck page --site public`,
		Args: noArguments,
		RunE: func(cmd *cobra.Command, args []string) error {
			if folder != "" {
				return a.writeSite(folder, force)
			}
			ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
			defer stop()
			if open && !cmd.Flags().Changed("listen") {
				listen = "127.0.0.1:0"
			}
			return a.servePage(ctx, listen, open)
		},
	}
	cmd.Flags().StringVar(&listen, "listen", pageAddress, "`address` and port to listen on; port 0 takes any free port")
	cmd.Flags().BoolVar(&open, "open", false, "serve on a free port, open the browser, and stop when the last tab is closed")
	cmd.Flags().StringVar(&folder, "site", "", "write the page as a site into this `folder`, and serve nothing")
	cmd.Flags().BoolVar(&force, "force", false, "overwrite the files of a site that is there")
	return cmd
}

// writeSite writes the page as a folder of files for any web server.
func (a *app) writeSite(folder string, force bool) error {
	engine, err := a.pageEngine()
	if err != nil {
		return err
	}
	handler, err := page.New(engine, page.Options{Loopback: true})
	if err != nil {
		return err
	}
	source, err := site.Source(".")
	if err != nil {
		return err
	}
	a.sweep(folder)
	return site.Write(folder, handler, source, force)
}

// servePage serves the page until the context is done, or as long as a tab is open.
func (a *app) servePage(ctx context.Context, listen string, open bool) error {
	engine, err := a.pageEngine()
	if err != nil {
		return err
	}
	l, err := net.Listen("tcp", listen)
	if err != nil {
		return usagef("%v; --listen 127.0.0.1:0 takes a free port", err)
	}
	defer l.Close()
	if !page.Loopback(l.Addr()) {
		a.say("warning: " + l.Addr().String() + " can be reached from other machines; there is no password, and what is entered crosses the network unencrypted")
	}
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(100) // a server lives longer than a look-up: see main
	}
	options := page.Options{Loopback: page.Loopback(l.Addr()), Log: a.say}
	if open {
		var stop context.CancelFunc
		ctx, stop = context.WithCancel(ctx)
		defer stop()
		options.Desktop = &page.Desktop{Stop: stop, Stopped: ctx.Done()}
	}
	handler, err := page.New(engine, options)
	if err != nil {
		return err
	}
	if open {
		if err := openBrowser("http://" + page.Addresses(l.Addr(), nil)[0] + "/"); err != nil {
			a.say("warning: the browser could not be opened: " + err.Error())
		}
	}
	if err := a.sayAddress(l.Addr()); err != nil {
		return err
	}
	return page.Serve(ctx, l, handler, page.Timeouts{}, a.say)
}

// sayAddress prints what a browser opens; for other machines, a code to point a phone at.
func (a *app) sayAddress(at net.Addr) error {
	interfaces, _ := net.InterfaceAddrs() // none known: localhost is said
	all := page.Addresses(at, interfaces)
	if page.Loopback(at) {
		_, err := fmt.Fprintf(a.stdout, "Open http://%s/ in a browser. Ctrl+C stops the page.\n", all[0])
		return err
	}
	text := fmt.Sprintf("Open http://%s/ in a browser, also on a phone in the same network:\npoint its camera at the code. Ctrl+C stops the page.\n", all[0])
	for _, other := range all[1:] {
		text += fmt.Sprintf("Or http://%s/\n", other)
	}
	if _, err := io.WriteString(a.stdout, text); err != nil {
		return err
	}
	return page.WriteQR(a.stdout, "http://"+all[0]+"/", terminal(a.stdout) != nil)
}

// pageEngine gives the page what it needs.
func (a *app) pageEngine() (page.Engine, error) {
	ref, err := a.reference()
	if err != nil {
		return page.Engine{}, err
	}
	edition, err := a.tablesInUse().Edition()
	if err != nil {
		return page.Engine{}, err
	}
	v, err := work.ReadVersion()
	return page.Engine{Reference: ref, Version: v, Edition: edition.String(), Tables: a.tablesInUse().Load}, err
}
