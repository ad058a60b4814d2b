// Package browser looks at pages as a reader does, in a real Chromium, for tests.
//
// [Start] starts one, [Browser.Open] opens a page in it, and a [Tab] is asked what it
// shows, what it printed to its console, and what it tried to fetch. Debian's Chromium
// is looked for; a test without one fails, and says how to install it.
package browser

import (
	"context"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/performance"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// names are what Chromium's program is called, where it is installed.
var names = []string{"chromium", "chromium-browser", "google-chrome", "chrome"}

// patience bounds everything that is asked of a tab: generously, since a machine may
// have other things to do.
const patience = 90 * time.Second

// A Browser is a running Chromium.
type Browser struct {
	t   testing.TB
	ctx context.Context
}

// Start starts a Chromium that ends with the test. It asks nothing of the network by
// itself, and what a page asks is refused.
func Start(t testing.TB) *Browser {
	t.Helper()
	options := []chromedp.ExecAllocatorOption{
		chromedp.ExecPath(find(t)), chromedp.NoSandbox,
		chromedp.Flag("disable-gpu", true), chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"),
	}
	ctx, cancel := chromedp.NewContext(t.Context(), chromedp.WithAllocatorOptions(options...))
	t.Cleanup(cancel)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	return &Browser{t, ctx}
}

func find(t testing.TB) string {
	t.Helper()
	for _, name := range names {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	t.Fatal("no Chromium here: install Debian's with apt-get install chromium")
	return ""
}

// A Tab is a page that is open.
type Tab struct {
	t   testing.TB
	ctx context.Context

	mu       sync.Mutex
	requests []string
	troubles []string
}

// A View is how a page is looked at.
type View struct {
	Width, Height int64
	Dark          bool
	Print         bool
}

// Common views: a laptop and a phone.
var (
	Laptop = View{Width: 1280, Height: 800}
	Phone  = View{Width: 390, Height: 844}
)

// Open opens an address, and waits until it is loaded.
func (b *Browser) Open(t testing.TB, address string, v View) *Tab {
	t.Helper()
	ctx, cancel := chromedp.NewContext(b.ctx)
	t.Cleanup(cancel)
	tab := &Tab{t: t, ctx: ctx}
	if err := chromedp.Do(ctx); err != nil { // the tab lives as long as its first context
		t.Fatal(err)
	}
	tab.do(chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error { return chromedp.Listen(ctx, tab.listen) }),
		chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
			if _, err := chromedp.Call(ctx, network.Enable, network.EnableParams{}); err != nil {
				return err
			}
			if _, err := chromedp.Call(ctx, performance.Enable, performance.EnableParams{TimeDomain: "threadTicks"}); err != nil {
				return err
			}
			_, err := chromedp.Call(ctx, log.Enable, cdp.Empty{})
			return err
		}),
		chromedp.EmulateViewport(v.Width, v.Height), media(v), chromedp.Navigate(address))
	return tab
}

func media(v View) chromedp.Action[chromedp.Void] {
	scheme := "light"
	if v.Dark {
		scheme = "dark"
	}
	params := emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}, {Name: "prefers-reduced-motion", Value: "reduce"}}}
	if v.Print {
		params.Media = "print"
	}
	return chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		_, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, params)
		return err
	})
}

// listen keeps what a page asks for, and what goes wrong in it.
func (tab *Tab) listen(event any) {
	tab.mu.Lock()
	defer tab.mu.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		if !strings.HasPrefix(e.Request.URL, "data:") {
			tab.requests = append(tab.requests, e.Request.URL)
		}
	case *runtime.EventExceptionThrown:
		tab.troubles = append(tab.troubles, "exception: "+e.ExceptionDetails.Text)
	case *runtime.EventConsoleAPICalled:
		tab.troubles = append(tab.troubles, "console: "+string(e.Type))
	case *log.EventEntryAdded:
		tab.troubles = append(tab.troubles, "log: "+e.Entry.Text+" "+e.Entry.URL)
	case *page.EventJavascriptDialogOpening:
		tab.troubles = append(tab.troubles, "dialog: "+e.Message)
	}
}

// Requests are the addresses that the page asked for, its own first.
func (tab *Tab) Requests() []string {
	tab.mu.Lock()
	defer tab.mu.Unlock()
	return append([]string(nil), tab.requests...)
}

// Troubles are what stands on the console, and dialogs that were opened.
func (tab *Tab) Troubles() []string {
	tab.mu.Lock()
	defer tab.mu.Unlock()
	return append([]string(nil), tab.troubles...)
}

func (tab *Tab) do(steps ...chromedp.Action[chromedp.Void]) {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.ctx, patience)
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		tab.t.Fatal(err)
	}
}

// Eval is what an expression of JavaScript comes to in a tab.
func Eval[T any](tab *Tab, expression string) T {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.ctx, patience)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		tab.t.Fatalf("%s: %v", shorten(expression), err)
	}
	return v
}

// Holds reports whether an expression is true in a tab; false where the tab is just
// going to another page.
func (tab *Tab) Holds(expression string) bool {
	ctx, cancel := context.WithTimeout(tab.ctx, patience)
	defer cancel()
	yes, err := chromedp.Run(ctx, chromedp.Evaluate[bool](expression, chromedp.EvalAwaitPromise))
	return err == nil && yes
}

func shorten(text string) string { return text[:min(len(text), 200)] }

// Press presses a key, such as a tabulator or return.
func (tab *Tab) Press(keys string) {
	tab.t.Helper()
	tab.do(chromedp.KeyEvent(keys))
}

// Arrow presses a key by its name, such as ArrowUp.
func (tab *Tab) Arrow(key string) {
	tab.t.Helper()
	tab.do(chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		for _, kind := range []input.DispatchKeyEventType{"keyDown", "keyUp"} {
			if _, err := chromedp.Call(ctx, input.DispatchKeyEvent, input.DispatchKeyEventParams{Type: kind, Key: key, Code: key}); err != nil {
				return err
			}
		}
		return nil
	}))
}

// Reload loads the page again, and waits until that is done.
func (tab *Tab) Reload() {
	tab.t.Helper()
	before := Eval[float64](tab, "performance.timeOrigin")
	tab.do(chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		_, err := chromedp.Call(ctx, page.Reload, page.ReloadParams{})
		return err
	}))
	for deadline := time.Now().Add(patience); !tab.Holds("performance.timeOrigin !== " + strconv.FormatFloat(before, 'f', -1, 64) + ` && document.readyState === "complete"`); {
		if time.Now().After(deadline) {
			tab.t.Fatal("the page does not load again")
		}
		time.Sleep(10 * time.Millisecond)
	}
}

// Close closes the tab.
func (tab *Tab) Close() {
	tab.t.Helper()
	tab.do(chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		_, err := chromedp.Call(ctx, page.Close, cdp.Empty{})
		return err
	}))
}

// Picture is the whole page as a PNG.
func (tab *Tab) Picture() []byte {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.ctx, patience)
	defer cancel()
	png, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
	if err != nil {
		tab.t.Fatal(err)
	}
	return png
}

// View is what is in view, as a PNG.
func (tab *Tab) View() []byte {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.ctx, patience)
	defer cancel()
	got, err := chromedp.Run(ctx, chromedp.CaptureScreenshot())
	if err != nil {
		tab.t.Fatal(err)
	}
	return got
}

// PDF is the page printed on a paper.
func (tab *Tab) PDF(paper chromedp.PaperSize) []byte {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.ctx, patience)
	defer cancel()
	pdf, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(paper), chromedp.PDFPrintBackground()))
	if err != nil {
		tab.t.Fatal(err)
	}
	return pdf
}

// A Violation is something that keeps readers out, as axe-core found it.
type Violation struct {
	ID    string `json:"id"`
	Help  string `json:"help"`
	Nodes []struct {
		HTML    string `json:"html"`
		Summary string `json:"failureSummary"`
	} `json:"nodes"`
}

// AxePath names the variable that says where axe.min.js of axe-core lies.
const AxePath = "AXE_CORE"

// Axe looks for what keeps readers out, by the rules of axe-core. What is inside a
// formula or a drawing is left out: it has no rules for either, and there is much.
func (tab *Tab) Axe() []Violation {
	tab.t.Helper()
	path := os.Getenv(AxePath)
	script, err := os.ReadFile(path)
	if err != nil {
		tab.t.Fatalf("axe-core is wanted at $%s: %v; cmd/internal/browser/axe.sh fetches it", AxePath, err)
	}
	Eval[bool](tab, string(script)+"\n;true")
	return Eval[[]Violation](tab, `axe.run({exclude: ["math", "svg"]}, {resultTypes: ["violations"]}).then(r => r.violations)`)
}

// Point moves the pointer to a place of the view.
func (tab *Tab) Point(x, y float64) {
	tab.t.Helper()
	tab.do(chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		_, err := chromedp.Call(ctx, input.DispatchMouseEvent, input.DispatchMouseEventParams{Type: "mouseMoved", X: x, Y: y})
		return err
	}))
}

// Busy is how long a tab's main thread has worked so far, by its own clock: what else
// the machine does is not in it.
func (tab *Tab) Busy() (busy time.Duration) {
	tab.t.Helper()
	tab.do(chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		r, err := chromedp.Call(ctx, performance.GetMetrics, cdp.Empty{})
		if err != nil {
			return err
		}
		for _, m := range r.Metrics {
			if m.Name == "TaskDuration" {
				busy = time.Duration(m.Value * float64(time.Second))
			}
		}
		return nil
	}))
	if busy == 0 {
		tab.t.Fatal("it does not say how long it worked")
	}
	return busy
}

// Click presses and releases the pointer's first button at a place of the view.
func (tab *Tab) Click(x, y float64) {
	tab.t.Helper()
	tab.Point(x, y)
	tab.do(chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		for _, kind := range []input.DispatchMouseEventType{"mousePressed", "mouseReleased"} {
			if _, err := chromedp.Call(ctx, input.DispatchMouseEvent, input.DispatchMouseEventParams{Type: kind, X: x, Y: y, Button: "left", ClickCount: 1}); err != nil {
				return err
			}
		}
		return nil
	}))
}
