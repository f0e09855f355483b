// Package page serves growtuck in a browser: from a child's measurements to a
// plan in stitches, a view of the charts for designers, one of the children of a
// list, one that checks proposed rows, and the commands' documents for other programs.
//
// [New] makes the handler. All state is in the address: nothing that is asked
// is kept, and no measurement is logged. The page is made of what is embedded
// here and fetches nothing from elsewhere; without JavaScript its forms are
// submitted.
//
// What the commands do comes in an [Engine]; the views compute with packages
// sizing, plan and validate.
package page
