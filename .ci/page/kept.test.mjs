// The views keep what was typed in the others, from any path, and send little.
import assert from 'node:assert/strict'
import { createServer, request } from 'node:http'
import { once } from 'node:events'
import { test } from 'node:test'
import { folder, follow, inSuit, serve, settled, sitePath, suit, tab } from './browser.mjs'

const own = serve()
const fields = async page => {
  await page.waitForLoadState()
  return page.locator('#ask input[type=text], #ask select').evaluateAll(all => Object.fromEntries(all.map(x => [x.name, x.value])))
}

test('views keep what was typed when one goes from one to the other', async t => {
  for (const javaScriptEnabled of [true, false]) {
    const page = await tab(t, own, { javaScriptEnabled })
    await page.goto(inSuit({ yarn: '50g 125m' }))
    const first = await fields(page)
    await follow(page, 'Sizes side by side')
    assert.equal(await page.getByLabel('Garment', { exact: true }).inputValue(), 'one-piece-hooded', 'what both have is shared')
    assert.equal(await page.getByLabel('Stitches', { exact: true }).inputValue(), '16')
    await page.getByLabel('Sizes', { exact: true }).fill('2, 4, 6')
    if (javaScriptEnabled) await settled(page, { sizes: '2, 4, 6' })
    else await page.keyboard.press('Enter')
    await follow(page, 'Check rows and drafts')
    await follow(page, 'A garment for a child')
    assert.deepEqual(await fields(page), first)
    await follow(page, 'Sizes side by side')
    assert.equal(await page.getByLabel('Sizes', { exact: true }).inputValue(), '2, 4, 6')
    // A tape that is changed here does not change what was measured there.
    await page.getByLabel('Lengths in').selectOption('in')
    if (javaScriptEnabled) await settled(page, { tape: 'in' })
    else await page.getByRole('button', { name: 'Show' }).first().click()
    await follow(page, 'A garment for a child')
    assert.equal(await page.getByRole('textbox', { name: 'Height' }).first().inputValue(), '89.5 cm')
    // What one garment has is there again after another.
    await page.getByLabel('Garment', { exact: true }).selectOption('hat')
    if (javaScriptEnabled) await settled(page, { garment: 'hat' })
    else await page.getByRole('button', { name: 'Show' }).first().click()
    await page.getByLabel('Garment', { exact: true }).selectOption('one-piece-hooded')
    if (javaScriptEnabled) await settled(page, { garment: 'one-piece-hooded' })
    else await page.getByRole('button', { name: 'Show' }).first().click()
    assert.equal(await page.getByLabel('Stitches', { exact: true }).inputValue(), '16')
  }
})

test('below another path', async t => {
  // A server that has the page below a path of its own, as a static site has it.
  const proxy = createServer((ask, answer) => {
    if (!ask.url.startsWith('/some/where/')) return answer.writeHead(404).end()
    const to = new URL(own.origin)
    const r = request({ host: to.hostname, port: to.port, path: ask.url.slice('/some/where'.length), method: ask.method, headers: { ...ask.headers, host: to.host } }, a => {
      answer.writeHead(a.statusCode, a.headers)
      a.pipe(answer)
    })
    ask.pipe(r)
  }).listen(0, '127.0.0.1')
  await once(proxy, 'listening')
  t.after(() => proxy.close())
  const below = folder ? sitePath : '/some/where/' // a site is below a path anyway
  const origin = folder ? own.origin : `http://127.0.0.1:${proxy.address().port}`
  const page = await tab(t, { ...own, origin })
  const out = []
  page.on('request', r => { if (!new URL(r.url()).pathname.startsWith(below)) out.push(r.url()) })
  await page.goto(folder ? '/?' + suit : below + '?' + suit)
  await page.getByRole('textbox', { name: 'Inside leg' }).fill('36')
  await settled(page, { inside_leg: '36' })
  const coming = page.waitForEvent('download')
  await page.getByRole('link', { name: 'The drawing (svg)' }).click()
  assert.equal(await (await coming).failure(), null)
  await follow(page, 'Sizes side by side')
  await page.getByLabel('Sizes', { exact: true }).fill('3, 5')
  await settled(page, { sizes: '3, 5' })
  await follow(page, 'Check rows and drafts')
  await page.getByRole('button', { name: 'Fill in an example with faults' }).click()
  await page.getByRole('button', { name: 'Check', exact: true }).click()
  await page.getByRole('heading', { name: 'Findings' }).waitFor()
  await follow(page, 'A garment for a child')
  assert.equal(await page.getByRole('textbox', { name: 'Inside leg' }).inputValue(), '36')
  assert.deepEqual(out, [])
})

test('the main job on a phone: six screens, 300 kB', async t => {
  const page = await tab(t, own, { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true })
  const network = await page.context().newCDPSession(page)
  await network.send('Network.enable')
  let sent = 0; let answers = 0; let plain = 0
  network.on('Network.loadingFinished', e => { sent += e.encodedDataLength; answers++ })
  network.on('Network.dataReceived', e => { plain += e.dataLength })
  await page.goto('/')
  const type = async (name, text) => {
    await page.locator(`[name="${name}"]`).tap()
    await page.keyboard.type(text, { delay: 350 }) // with one finger: every key is asked for
    await settled(page, { [name]: text })
  }
  const pick = async (name, value) => {
    await page.locator(`[name="${name}"]`).selectOption(value)
    await settled(page, { [name]: value })
  }
  await pick('sex', 'm')
  await type('age', '4.5')
  await type('height', '110.5')
  await type('weight', '18.5')
  await type('chest', '53')
  await type('waist', '51.5')
  await type('hip', '57')
  await type('head', '50.5')
  await pick('garment', 'one-piece-hooded')
  await pick('layer', 'winter')
  await pick('growth', '1')
  await type('stitches', '16')
  await type('rows', '18')
  await page.locator('#r-plan .chapter').first().waitFor()
  await page.waitForTimeout(300)
  t.diagnostic(`${answers} answers, ${(sent / 1000).toFixed(0)} kB, ${(plain / 1000).toFixed(0)} kB unpacked`)
  assert.ok(sent <= 300_000, `${sent} bytes`)
  // From the top over the warnings to the last section of the pattern.
  assert.equal(await page.locator('#r-plan details[open]').count(), 0)
  const top = async selector => (await page.locator(selector).last().evaluate(x => x.getBoundingClientRect().bottom + scrollY)) / 740
  const [checks, pattern] = [await top('#r-checks'), await top('#r-plan .chapter')]
  t.diagnostic(`the warnings end at screen ${checks.toFixed(1)}, the pattern at ${pattern.toFixed(1)}`)
  assert.ok(checks < pattern && pattern <= 6)
  assert.ok(await top('#r-checks h2') < await top('#r-plan .chapter summary'), 'warnings before the work')
  // The bar stays in sight, with three figures, and leads there.
  for (const y of [0, 1500, 3000, 1e6]) {
    await page.evaluate(y => scrollTo(0, y), y)
    const box = await page.locator('.here').boundingBox()
    assert.ok(y === 0 || (box.y >= -1 && box.y < 5), `the bar is in sight at ${y}: ${box.y}`)
    assert.ok(box.height < 120)
  }
  assert.deepEqual((await page.locator('.figures li').allTextContents()).map(x => x.replace(/[\d.]+/, 'n').trim()), ['chest n cm', 'inside leg n cm', 'n stitches'])
  for (const [name, id] of [['Child', 'child'], ['Finished', 'finished'], [/^Checks/, 'checks'], ['Pattern', 'pattern'], ['Take along', 'take']]) {
    await page.getByRole('navigation', { name: 'Contents' }).getByRole('link', { name }).tap()
    await page.waitForFunction(id => { const box = document.getElementById(id).getBoundingClientRect(); return box.top > -5 && box.top < 740 }, id)
  }
})
