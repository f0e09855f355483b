// Entries that are wrong, odd or in doubt: what was worked out stays, the field says why,
// and nothing is said while it is being typed.
import assert from 'node:assert/strict'
import { test } from 'node:test'
import { follow, inSuit, serve, settled, tab } from './browser.mjs'
import { open } from './views.mjs'

const own = serve()
const child = { widths: '', lengths: '', age: '4.5', height: '110.5', chest: '53', arm_length: '', inside_leg: '' }
const sections = page => page.locator('#r-plan .chapter').count()
const grey = page => page.locator('.old').evaluateAll(all => all.map(x => x.id))
const looks = page => page.locator('#r-look a').allTextContents()

test('a wrong entry takes no answer away', async t => {
  const page = await tab(t, own)
  await page.goto(inSuit({ ...child, hip: '56' }))
  await open(page)
  const before = await page.locator('#r-plan').innerText()
  const all = ['r-bar', 'r-child', 'r-garment', 'r-checks', 'r-plan', 'r-files']
  for (const [name, entry, rests] of [
    ['hip', 'wide', all], ['hip', '-3', all], ['hip', '3 4 5', all],
    ['size', 'huge', all],
    ['extra.chest', '-100', all.filter(x => x !== 'r-child')], ['extra.chest', 'more', all.filter(x => x !== 'r-child')],
    ['ease', 'chest', all.filter(x => x !== 'r-child')],
    ['stretch', 'ear=9', ['r-bar', 'r-checks', 'r-plan', 'r-files']], ['multiple', 'x', ['r-bar', 'r-checks', 'r-plan', 'r-files']],
    ['stitches', 'many', ['r-bar', 'r-checks', 'r-plan', 'r-files']], ['rows', '', ['r-bar', 'r-checks', 'r-plan', 'r-files']],
    ['yarn', 'a big ball', []], ['swatch', 'small', []], ['pace', 'slow', []]
  ]) {
    const field = page.locator(`[name="${name}"]`)
    const right = await field.inputValue()
    await field.fill(entry)
    await field.blur()
    await page.waitForFunction(id => document.getElementById(id).getAttribute('aria-invalid') === 'true', await field.getAttribute('id'))
    assert.equal((await looks(page)).length, 1, `${name} ${entry}`)
    assert.deepEqual((await grey(page)).sort(), rests.toSorted(), `${name} ${entry}: what rests on it stays, in grey`)
    if (rests.includes('r-plan')) {
      assert.equal(await page.locator('#r-plan').innerText(), before, `${name} ${entry}`)
      assert.ok(await page.locator('#r-plan').locator('xpath=preceding-sibling::p[1]').isVisible(), 'and says so')
    } else assert.ok(await sections(page) > 10)
    await page.locator('#r-look a').click()
    assert.equal(await page.evaluate(() => document.activeElement.name), name, 'the link goes to the field')
    await page.keyboard.press('Control+A')
    if (right) await page.keyboard.type(right)
    else await page.keyboard.press('Delete')
    await page.waitForFunction(() => !document.querySelector('[aria-invalid], .old, #r-look li'))
    assert.equal(await page.locator('#r-plan').innerText(), before, `${name}: as before`)
  }
})

test('while an entry is wrong, the others count', async t => {
  const page = await tab(t, own)
  await page.goto(inSuit({ ...child, hip: 'wide' }))
  await page.locator('#r-child').getByText('Worked out without what was entered at Hip girth').waitFor()
  assert.ok(await sections(page) > 10, 'opened from its address it is worked out without it')
  const stitches = await page.locator('.figures').innerText()
  await page.getByLabel('Stitches', { exact: true }).fill('20')
  await settled(page, { stitches: '20' })
  assert.notEqual(await page.locator('.figures').innerText(), stitches)
  assert.deepEqual(await grey(page), [])
  assert.deepEqual(await looks(page), ['Hip girth'])
  // Without scripts the same, and files are made without it.
  const plain = await tab(t, own, { javaScriptEnabled: false })
  await plain.goto(inSuit({ ...child, hip: 'wide', yarn: 'big' }))
  await plain.locator('#r-child').getByText('Worked out without what was entered at Hip girth').waitFor()
  assert.deepEqual(await looks(plain), ['Hip girth', 'A ball of yarn'])
  assert.ok(await sections(plain) > 10)
  for (const link of await plain.locator('#r-files .links a').evaluateAll(all => all.map(a => a.href))) {
    assert.equal((await fetch(link)).status, 200, link)
    assert.ok(!/wide|big/.test(link))
  }
})

test('what is in doubt is marked, with what was likely meant as a button', async t => {
  const page = await tab(t, own)
  for (const [typed, button, set] of [
    [{ chest: '5.3' }, 'Set to 53 cm', { chest: '53 cm' }],
    [{ chest: '0.53' }, 'Set to 53 cm', { chest: '53 cm' }],
    [{ height: '43.5' }, 'Set to 110.5 cm', { height: '110.5 cm' }],
    [{ height: '53', chest: '110.5' }, 'Set to 110.5 cm and 53 cm', { height: '110.5 cm', chest: '53 cm' }]
  ]) {
    await page.goto(inSuit(child))
    for (const [name, text] of Object.entries(typed)) await page.locator(`[name="${name}"]`).fill(text)
    const field = page.locator(`[name="${Object.keys(typed)[0]}"]`)
    await field.blur()
    await page.waitForFunction(id => document.getElementById(id).getAttribute('aria-invalid') === 'true', await field.getAttribute('id'))
    const words = page.locator('#' + (await field.getAttribute('aria-describedby')).split(' ')[0])
    assert.match(await words.innerText(), /less than (such )?children .*have/i)
    assert.ok(await sections(page) > 10, 'the answer stays')
    await words.getByRole('button', { name: button, exact: true }).click()
    await page.waitForFunction(() => !document.querySelector('[aria-invalid]'))
    for (const [name, text] of Object.entries(set)) assert.equal(await page.locator(`[name="${name}"]`).inputValue(), text)
    assert.equal(await page.evaluate(() => document.activeElement.name), Object.keys(set)[0])
    assert.deepEqual(await looks(page), [])
  }
  const plain = await tab(t, own, { javaScriptEnabled: false })
  await plain.goto(inSuit({ ...child, height: '53', chest: '110.5' }))
  await plain.getByRole('button', { name: 'Set to 110.5 cm and 53 cm' }).first().click()
  await plain.waitForLoadState()
  assert.equal(await plain.locator('[name=height]').inputValue(), '110.5 cm')
  assert.equal(await plain.locator('[name=chest]').inputValue(), '53 cm')
  assert.equal(await plain.locator('[aria-invalid]').count(), 0)
  // Enter in a field shows the answer, and presses none of these buttons.
  await plain.locator('[name=chest]').fill('5.3')
  await plain.keyboard.press('Enter')
  await plain.waitForLoadState()
  assert.equal(await plain.locator('[name=chest]').inputValue(), '5.3')
  await plain.keyboard.press('Enter')
})

test('nothing is said of an entry while it is being typed', async t => {
  const page = await tab(t, own)
  await page.goto(inSuit({ ...child, height: '' }))
  await page.evaluate(() => {
    window.seen = []
    new MutationObserver(() => {
      const now = [document.querySelector('[aria-invalid]')?.id, document.querySelector('#r-look li')?.textContent, document.getElementById('said').textContent].filter(Boolean).join('|')
      if (/height|look/i.test(now)) window.seen.push(now)
    }).observe(document.body, { subtree: true, childList: true, attributes: true, characterData: true })
  })
  await page.locator('[name=height]').focus()
  for (const key of '110.5') {
    await page.keyboard.type(key)
    await page.waitForTimeout(600) // longer than it takes to ask
  }
  await settled(page, { height: '110.5' })
  assert.deepEqual(await page.evaluate(() => window.seen), [])
  assert.equal(await page.locator('[role=alert], [aria-live=assertive]').count(), 0)
  // After a pause it is said.
  await page.keyboard.type('x')
  await page.waitForFunction(() => document.getElementById('height').getAttribute('aria-invalid') === 'true')
  await page.waitForFunction(() => /One entry needs a look: Height/.test(document.getElementById('said').textContent))
})

test('what an odd user enters', async t => {
  const page = await tab(t, own)
  await page.goto(inSuit(child))
  await open(page)
  const odd = ['', ' ', '0', '-1', '1e9', '1e-9', 'NaN', '½', '4 1/2', '3\'7"', '3 ft 7 in', '1,105 m', '<b>&"\'', '💡', 'x'.repeat(300), '53 53', '5 . 3', '٥٣', '%00', 'javascript:1', '1;2,3', '=1+1']
  const names = await page.locator('#ask input[type=text]').evaluateAll(all => all.map(x => x.name))
  assert.ok(names.length > 60)
  let n = 0
  for (const [i, name] of names.entries()) {
    for (const entry of [odd[i % odd.length], odd[(i * 7 + 3) % odd.length]]) {
      await page.locator(`[name="${name}"]`).fill(entry)
      n++
    }
  }
  await page.locator('[name=height]').focus()
  // The last answer is of all that was typed.
  await page.waitForFunction(() => {
    const said = new URLSearchParams(history.state?.asked)
    return [...document.querySelectorAll('#ask input[type=text]')].every(x => (said.get(x.name) ?? '') === x.value.trim()) && document.querySelectorAll('#r-look li').length > 20
  })
  const wrong = await page.locator('[aria-invalid]').evaluateAll(all => all.map(x => x.name))
  t.diagnostic(`${n} entries, ${wrong.length} need a look`)
  // The tab, loaded anew, says the same of each field; going away and back too.
  const typed = () => page.locator('#ask input[type=text]').evaluateAll(all => all.map(x => x.value.trim()))
  const first = await typed()
  await page.reload()
  assert.deepEqual((await page.locator('[aria-invalid]').evaluateAll(all => all.map(x => x.name))).toSorted(), wrong.toSorted())
  const again = await typed()
  for (const [i, text] of first.entries()) assert.equal(again[i], text.slice(0, 200), names[i])
  await follow(page, 'Sizes side by side')
  await page.goBack()
  assert.deepEqual(await typed(), again)
})
