// Every view: as it is at the start, full, with errors and with findings.
import { inSuit } from './browser.mjs'

const sizes = '/sizes?sizes=2,3,4.5,104cm,6&garment=one-piece-hooded&stitches=16&rows=18'
// views are the views by their addresses.
export const views = {
  start: '/',
  suit: inSuit({ yarn: '50g 125m', swatch: '10x10cm 4g' }),
  'suit in inches': inSuit({ tape: 'in', height: '35 1/4', arm_length: '11¼', inside_leg: '13 3/4', over: '4in' }),
  'wrong entries': inSuit({ height: 'tall', lengths: '', rows: 'many', swatch: 'small', stretch: 'neck', 'extra.hood_round': 'more', multiple: 'x' }),
  sizes,
  'wrong sizes': '/sizes?sizes=3,huge&stitches=many&chart=none&garment=hat',
  'another chart': '/sizes?chart=measured&sizes=104cm,110cm&all=yes',
  rows: '/rows',
  several: inSuit().replace('/?', '/children?')
}
const faulty = `chart,size,sex,measurement,statistic,value,unit,source,where,basis,review,note
craft,4,both,chest,given,68,cm,craft-2018,made up for this test,published,one reader,
craft,4,both,hipp,given,60,cm,craft-2018,made up for this test,published,one reader,
`

// posts are views that come from what is posted.
export const posts = { findings: faulty, 'nothing given': ' ', 'no table': '<b>"' }

// children are a list, one of whom cannot be sized.
export const children = 'name,sex,age,height,chest\nInes,f,9.25,141,61\nOtto,m,7,124,63.5\nAda,f,8.5,131,64\nBo,m,1.5,81,49\nno one,f,9,12,60\n'

// alike are views that differ from another in their numbers alone.
const alike = ['suit in inches', 'another chart']

// each visits every view in a tab.
export async function each (page, visit) {
  for (const [name, address] of Object.entries(views).filter(([name]) => !alike.includes(name))) {
    await page.goto(address)
    await visit(name)
  }
  for (const [name, text] of Object.entries(posts)) {
    await page.goto('/rows')
    await page.getByLabel('Rows, with their header line').fill(text)
    const next = page.waitForNavigation()
    await page.getByRole('button', { name: 'Check', exact: true }).click()
    await next
    await visit(name)
  }
  await page.goto(views.several)
  await page.getByLabel('The children, a line each').fill(children)
  await page.getByRole('button', { name: 'Work it out' }).click()
  await page.getByRole('heading', { name: 'How well they fit' }).waitFor()
  await visit('children of a list')
}

// open unfolds all that is folded, and waits for what is then fetched anew.
export async function open (page) {
  const answer = await page.locator('html.js #later:not([open])').count() ? page.waitForResponse(r => 'growtuck-shown' in r.request().headers()) : null
  await page.evaluate(() => { for (const d of document.querySelectorAll('details')) d.open = true })
  await answer
  await page.waitForFunction(() => !document.querySelector('.busy') && !document.getAnimations().length)
}
