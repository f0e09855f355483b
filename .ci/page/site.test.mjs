// The site: the page without a server, from the folder that GROWTUCK_SITE names. Its
// answers are those of the program; it works offline; what goes wrong is said.
import assert from 'node:assert/strict'
import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import { browser, folder, inSuit, sitePath, startProgram, started, suit } from './browser.mjs'
import { serveFiles } from './files.mjs'
import { views } from './views.mjs'

const skip = folder ? false : 'GROWTUCK_SITE names no site'
let chromium, scratch
before(async () => {
  if (skip) return
  chromium = await browser()
  scratch = await mkdtemp(join(tmpdir(), 'site-'))
})
after(async () => {
  await chromium?.close()
  if (scratch) await rm(scratch, { recursive: true })
})

// open serves a folder and opens a tab on it.
async function open (t, from = folder, options = {}) {
  const files = await serveFiles(from, sitePath)
  const context = await chromium.newContext({ baseURL: files.origin + sitePath, ...options })
  t.after(async () => { await context.close(); files.close() })
  return { files, context, page: await context.newPage() }
}

// another is a copy of the site in which a text file was changed.
async function another (name, change) {
  const copy = await mkdtemp(join(scratch, 'copy-'))
  await cp(folder, copy, { recursive: true })
  await writeFile(join(copy, name), await change(await readFile(join(copy, name))))
  return copy
}

const starting = page => page.locator('#starting')
const address = inSuit().slice(1)
const shown = page => page.getByRole('region', { name: 'Finished measurements' }).first().waitFor({ timeout: 60_000 })

test('the first visit: a form, what is happening, then answers; the host is asked for files alone', { skip }, async t => {
  const { page, context, files } = await open(t)
  await page.goto(address.replace(/\?.*/, ''))
  assert.ok(await page.getByRole('textbox', { name: 'Height' }).first().isVisible())
  await started(page)
  await page.goto(address)
  await shown(page)
  await page.goto('sizes?sizes=2,3')
  await page.goto('rows')
  assert.equal(files.asked.filter(a => a.includes('?')).length, 0, 'no number goes to the host: ' + files.asked.join('\n'))
  assert.equal((await context.cookies()).length, 0)
  assert.deepEqual(await page.evaluate(async () => [localStorage.length, sessionStorage.length, (await indexedDB.databases()).length]), [0, 0, 0])
  const kept = await page.evaluate(async () => (await Promise.all((await caches.keys()).map(async name => (await (await caches.open(name)).keys()).map(r => new URL(r.url).pathname)))).flat())
  assert.deepEqual(kept.filter(name => !name.endsWith('.wasm.gz')), [], 'nothing but the program is kept')
})

test('a view other than the first can be the first visited, with its state', { skip }, async t => {
  const { page } = await open(t)
  await page.goto('sizes?sizes=2,4')
  await started(page)
  assert.match(page.url(), /sizes\/?\?sizes=2,4$/)
  await page.getByRole('columnheader', { name: '4' }).first().waitFor()
})

test('what is typed while the program is fetched is not lost', { skip }, async t => {
  const { page, context } = await open(t)
  await context.route('**/engine.wasm.gz', async route => { await new Promise(resolve => setTimeout(resolve, 1500)); await route.continue() })
  await page.goto('./')
  await page.getByRole('textbox', { name: 'Height' }).first().fill('110.5')
  await started(page)
  assert.equal(await page.getByRole('textbox', { name: 'Height' }).first().inputValue(), '110.5')
})

test('the same answers as from the program, byte for byte', { skip }, async t => {
  const program = await startProgram()
  t.after(program.stop)
  const { page } = await open(t)
  await page.goto('./')
  await started(page)
  const garments = (await (await fetch(program.origin + '/api/garments')).json()).garments.map(g => g.garment ?? g.id)
  assert.ok(garments.length >= 10)
  const asked = [...Object.values(views), '/static/page.css', '/static/page.js', '/api/openapi.json', '/api/charts', '/api/measurements', '/api/sources', '/api/rules', '/api/version', '/api/size?size=3', '/api/nothing', '/nothing', '/files/nothing']
  for (const [i, garment] of garments.entries()) {
    const child = ['size=6', 'height=104&chest=55', 'size=18m', 'sex=f&age=9y3m&height=141&arm_length=50&weight=28'][i % 4]
    const q = `${child}&garment=${garment}&stitches=20&rows=28`
    for (const craft of ['knit', 'crochet']) asked.push(`/?${q}&craft=${craft}`, `/files/plan.csv?${q}&craft=${craft}`, `/files/pattern.md?${q}&craft=${craft}`, `/files/pattern.html?${q}&craft=${craft}`, `/files/draft.csv?${q}&craft=${craft}`)
    asked.push(`/sizes?sizes=2,4,6&garment=${garment}&stitches=20&rows=28`, `/files/body.csv?${child}`, `/files/finished.csv?${q}`, `/files/drawing.svg?${q}`, `/files/plan.xlsx?${q}&craft=knit`, `/?${q}&tape=in`, `/api/plan?${q}`, `/api/garment?${q}`, `/api/draw?${q}`)
  }
  assert.ok(asked.length >= 200, `${asked.length} questions`)
  const site = async (address, body) => page.evaluate(async ([address, body]) => {
    const r = await fetch('.' + address, body === undefined ? {} : { method: 'POST', headers: { 'Content-Type': 'application/x-www-form-urlencoded' }, body })
    const sum = new Uint8Array(await crypto.subtle.digest('SHA-256', await r.arrayBuffer()))
    return [r.status, r.headers.get('content-type'), r.headers.get('content-disposition'), Array.from(sum).join()].join(' ')
  }, [address, body])
  const own = async (address, body) => {
    const r = await fetch(program.origin + address, body === undefined ? {} : { method: 'POST', headers: { 'Content-Type': 'application/x-www-form-urlencoded' }, body })
    const sum = new Uint8Array(await crypto.subtle.digest('SHA-256', await r.arrayBuffer()))
    return [r.status, r.headers.get('content-type'), r.headers.get('content-disposition'), Array.from(sum).join()].join(' ')
  }
  const differ = []
  for (const a of asked) if (await site(a) !== await own(a)) differ.push(a)
  const rows = 'rows=' + encodeURIComponent('chart,size,sex,measurement,statistic,value,unit,source,where,basis,review,note\ncraft,4,both,chest,given,68,cm,craft-2018,made up for this test,published,one reader,\n')
  if (await site('/rows', rows) !== await own('/rows', rows)) differ.push('POST /rows')
  assert.deepEqual(differ, [])
  t.diagnostic(`${asked.length + 1} questions`)
})

test('offline after the first visit: every view, and the files to take along', { skip }, async t => {
  const { page, context, files } = await open(t)
  await page.goto('./')
  await started(page)
  await page.evaluate(async q => { await (await fetch('files/plan.xlsx?' + q)).arrayBuffer() }, String(suit))
  await context.setOffline(true)
  files.close()
  for (const a of Object.values(views)) {
    await page.goto(a.slice(1) || './')
    assert.equal(await page.locator('main h1').count(), 1, a)
  }
  for (const name of ['plan.xlsx', 'pattern.html', 'draft.csv', 'drawing.svg']) {
    const [status, bytes] = await page.evaluate(async ([name, q]) => { const r = await fetch(`files/${name}?${q}`); return [r.status, (await r.arrayBuffer()).byteLength] }, [name, String(suit)])
    assert.equal(status, 200, name)
    assert.ok(bytes > 500, name)
  }
})

test('offline without the part for workbooks: that is said, and all else works', { skip }, async t => {
  const { page, context } = await open(t)
  await page.goto('./')
  await started(page)
  await context.setOffline(true)
  const [status, text] = await page.evaluate(async q => { const r = await fetch('files/plan.xlsx?' + q); return [r.status, await r.text()] }, String(suit))
  assert.equal(status, 503)
  assert.match(text, /Workbooks are not here yet/)
  await page.goto(address)
  await shown(page)
  await context.setOffline(false)
  assert.equal(await page.evaluate(async q => (await fetch('files/plan.xlsx?' + q)).status, String(suit)), 200)
})

test('a new edition is told, in every tab, and nothing typed is lost', { skip }, async t => {
  const next = await another('worker.js', text => String(text).replace(/const edition = "[^"]*"/, 'const edition = "next"'))
  let current = folder
  const { page, context } = await open(t, () => current)
  await page.goto('./')
  await started(page)
  const other = await context.newPage()
  await other.goto(address)
  await page.goto(address)
  current = next
  await page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update())
  for (const each of [page, other]) await each.getByText('A new edition of this page has come').waitFor()
  await page.getByRole('button', { name: 'Use it now' }).click()
  await other.getByText('Another tab took over a new edition').waitFor()
  await page.waitForLoadState()
  await shown(page)
  assert.equal(new URL(page.url()).search, '?' + suit)
  await other.getByRole('button', { name: 'Use it now' }).click()
  await shown(other)
  assert.equal(new URL(other.url()).search, '?' + suit)
})

test('a program that comes cut short is not started, and fetched again', { skip }, async t => {
  const cut = await another('engine.wasm.gz', bytes => bytes.subarray(0, bytes.length / 2))
  const { page, context } = await open(t)
  let broken = true
  await context.route('**/engine.wasm.gz', route => broken ? route.fulfill({ path: join(cut, 'engine.wasm.gz') }) : route.continue())
  await page.goto(address)
  await starting(page).getByText(/could not be fetched/).waitFor({ timeout: 60_000 })
  broken = false
  await page.reload()
  await started(page)
  await shown(page)
})

test('a kept program that was damaged is fetched again', { skip }, async t => {
  const { page, context } = await open(t)
  await page.goto('./')
  await started(page)
  await page.evaluate(async () => {
    for (const name of await caches.keys()) await (await caches.open(name)).put('engine.wasm.gz', new Response('damaged'))
  })
  const cdp = await context.newCDPSession(page)
  await cdp.send('ServiceWorker.enable')
  await cdp.send('ServiceWorker.stopAllWorkers')
  await page.goto(address)
  await shown(page)
})

test('no room to keep the program: it works online and says so', { skip }, async t => {
  const { page, context, files } = await open(t)
  const cdp = await context.newCDPSession(page)
  await cdp.send('Storage.overrideQuotaForOrigin', { origin: files.origin, quotaSize: 1 << 20 })
  await page.goto('./')
  await started(page)
  await page.getByText('gave no room to keep the page').waitFor()
  await page.goto(address)
  await shown(page)
})

test('where the browser cannot run it, that is said', { skip }, async t => {
  for (const [what, options, script] of [
    ['does not let the page keep its program', {}, () => { delete Navigator.prototype.serviceWorker }],
    ['could not be fetched', { serviceWorkers: 'block' }, () => {}],
    ['too old', {}, () => { delete globalThis.DecompressionStream }]
  ]) {
    const { page } = await open(t, folder, options)
    await page.addInitScript(script)
    await page.goto(address)
    await starting(page).getByText(what).waitFor()
  }
  const { page } = await open(t, folder, { javaScriptEnabled: false })
  await page.goto('./')
  assert.match(await page.locator('noscript').first().textContent(), /Without scripts/)
})
