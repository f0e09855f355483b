// What the tests share: a growtuck page of their own, a browser, and a tab that
// must stay clean.
import assert from 'node:assert/strict'
import { execFileSync, spawn } from 'node:child_process'
import { once } from 'node:events'
import { after, before } from 'node:test'
import { chromium } from 'playwright-core'
import { serveFiles } from './files.mjs'

const program = process.env.GROWTUCK
// Where GROWTUCK_SITE names the folder of a site, the tests drive that in place of the
// program's own server; with GROWTUCK_OFFLINE without a network after a tab's first visit.
export const folder = process.env.GROWTUCK_SITE
const offline = Boolean(process.env.GROWTUCK_OFFLINE)
const flags = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync']

// sitePath is where the site is served: as many hosts do, not at the root.
export const sitePath = '/pages/growtuck/'

export const launch = { executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: flags }

export const browser = () => chromium.launch(launch)

// startProgram starts growtuck page; stop ends it, and fails where it complained.
export async function startProgram () {
  assert.ok(program, 'GROWTUCK must name the program')
  const server = spawn(program, ['page', '--listen', '127.0.0.1:0'], { stdio: ['ignore', 'pipe', 'pipe'] })
  let complaints = ''
  server.stderr.on('data', text => { complaints += text })
  const [line] = await once(server.stdout, 'data')
  const stop = async () => {
    server.kill('SIGTERM')
    const [code] = await once(server, 'exit')
    assert.equal(code, 0, 'the program stops when told to')
    assert.equal(complaints, '', 'the program has nothing to complain of')
  }
  return { origin: String(line).match(/http:\/\/[^/]+/)[0], stop }
}

// serve starts the program, or serves the site, and a browser for the tests of a file.
// The values are there once the tests run.
export function serve () {
  const own = { at: address => address }
  before(async () => {
    if (folder) {
      own.files = await serveFiles(folder, sitePath)
      own.origin = own.files.origin
      own.at = address => address.startsWith('/') ? sitePath + address.slice(1) : address
    } else {
      own.program = await startProgram()
      own.origin = own.program.origin
    }
    own.chromium = await browser()
  })
  after(async () => {
    await own.chromium?.close()
    await own.program?.stop()
    own.files?.close()
  })
  return own
}

// tab opens a tab in its own profile. When its test ends, the tab must not have
// asked another origin for anything, and neither the console nor the content
// policy may have reported anything.
export async function tab (t, own, options = {}) {
  if (folder && options.javaScriptEnabled === false) {
    t.skip('without scripts the site has no answers')
    throw new Error('skipped')
  }
  const context = await own.chromium.newContext({ baseURL: own.origin, viewport: { width: 1280, height: 900 }, ...options })
  context.setDefaultTimeout(folder ? 60_000 : 30_000)
  const foreign = []; const said = []; const failed = []
  context.on('request', r => { if (new URL(r.url()).origin !== own.origin && !/^(blob|data):/.test(r.url())) foreign.push(r.url()) })
  context.on('response', r => { if (r.status() >= 400) failed.push(`${r.status()} ${r.request().method()} ${r.url()}`) })
  context.on('console', m => { if (['error', 'warning'].includes(m.type())) said.push(m.text()) })
  context.on('weberror', e => said.push(String(e.error())))
  await context.addInitScript(() => {
    document.addEventListener('securitypolicyviolation', e => console.error(`content policy: ${e.violatedDirective} ${e.blockedURI}`))
  })
  const page = await context.newPage()
  // A tab that comes back is made of what it had typed once its script has asked for it.
  for (const come of ['reload', 'goBack', 'goForward']) {
    const back = page[come].bind(page)
    page[come] = async how => {
      await back(how)
      await page.waitForFunction(() => !document.documentElement.matches('.waiting'))
    }
  }
  if (folder && options.javaScriptEnabled !== false) {
    const go = page.goto.bind(page)
    page.goto = (address, how) => go(own.at(address), how)
    await page.goto('/')
    await started(page)
    if (offline) await context.setOffline(true)
  }
  t.after(async () => {
    await context.close()
    assert.deepEqual(foreign, [], 'requests to another origin')
    assert.deepEqual(said, [], 'console and content policy')
    assert.deepEqual(failed, [], 'answers that are errors')
  })
  return page
}

// started waits until the site's program answers.
export async function started (page) {
  await page.waitForFunction(() => !document.getElementById('starting') && document.getElementById('main'), null, { timeout: 120_000 })
  await page.waitForLoadState()
}

// growtuck runs the program and gives what it prints.
export function growtuck (...args) {
  return execFileSync(program, args, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] })
}

// status is the program's exit status, with what it prints to standard output.
export function status (...args) {
  try {
    return { code: 0, text: growtuck(...args) }
  } catch (e) {
    return { code: e.status, text: e.stdout }
  }
}

// cells reads a table's body, a list of texts for each row, without the words
// behind the numbers.
export function cells (table) {
  return table.evaluate(t => [...t.tBodies].flatMap(b => [...b.rows]).map(r => [...r.cells].map(c => {
    const shown = (c.querySelector('.num') ?? c).cloneNode(true)
    for (const words of shown.querySelectorAll('[popover]')) words.remove()
    return shown.textContent.trim()
  })))
}

// halves writes a figure that was printed to hundredths as the page does, to the
// nearest half; where it may go either way, as the page shows it.
export function halves (figure, shown) {
  const written = [figure, figure - 0.005, figure + 0.005].map(x => (Math.round(x * 2) / 2).toFixed(1))
  return written.includes(shown) ? shown : written[0]
}

// findings reads the findings that the page shows, as rule and severity.
export async function findings (page) {
  const all = await page.locator('.finding').evaluateAll(all => all.map(x => [x.querySelector('.rule').textContent, x.querySelector('.severity').textContent]))
  return all.map(([rule, severity]) => `${rule.match(/[A-Z]\d\d/)} ${severity.match(/stop|warn|note/i)}`).sort()
}

// listed writes findings as the program lists them in the same way.
export const listed = list => list.map(f => `${f.rule} ${f.severity}`).sort()

// follow goes to another view, and waits until it shows what was typed before.
export async function follow (page, name) {
  const come = page.waitForEvent('load')
  await page.getByRole('link', { name }).click()
  await come
  await page.waitForFunction(() => !document.documentElement.matches('.waiting'))
}

// typed is what the tab keeps of what was typed, as a query; the address has it only where
// it was opened with it.
export const typed = page => page.evaluate(() => location.search || (history.state?.asked ?? ''))

// settled waits until the tab keeps what the form says: the last answer has come and is
// shown.
export function settled (page, want) {
  return page.waitForFunction(want => {
    const kept = new URLSearchParams(location.search || history.state?.asked)
    return Object.entries(want).every(([k, v]) => (kept.get(k) ?? '') === v)
  }, want)
}

// The garment of the tests: a long, slim baby's pram suit over winter clothes, with
// his own lengths and widths from a smaller size.
export const suit = new URLSearchParams({
  sex: 'm', age: '22m', height: '89.5', arm_length: '28.5', inside_leg: '35', widths: '2', lengths: '3',
  garment: 'one-piece-hooded', layer: 'winter', growth: '1', stitches: '16', rows: '18'
})

// The same for the command line.
export const suitFlags = ['one-piece-hooded', '--sex', 'm', '--age', '22m', '--set', 'height=89.5cm', '--set', 'arm_length=28.5cm', '--set', 'inside_leg=35cm',
  '--widths', '2', '--lengths', '3', '--layer', 'winter', '--growth', '1']

// inSuit is the address of the suit with some fields changed; '' takes one away.
export function inSuit (change = {}) {
  const q = new URLSearchParams(suit)
  for (const [k, v] of Object.entries(change)) v === '' ? q.delete(k) : q.set(k, v)
  return '/?' + q
}
