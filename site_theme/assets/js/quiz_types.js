// @ts-check
/**
 * What a bank holds, as `generator/quiz/bank.py` writes it (version 1), and what is sent home. Types only.
 *
 * @typedef {"read"|"job"|"place"|"next"|"call"|"tell"} Kind
 *
 * @typedef {object} Clip A stretch of a play in motion.
 * @property {string} branch key of the branch
 * @property {string} [version] which version of the play; absent: as written
 * @property {number} from seconds
 * @property {number} to
 *
 * @typedef {object} Question
 * @property {string} id stable: outlives a change of wording
 * @property {Kind} kind
 * @property {string} play id of the play
 * @property {number} pos position asked, 0: everybody
 * @property {string} prompt
 * @property {string[]} options empty for `place`
 * @property {number[]} right indexes into `options`; several: all of them must be tapped
 * @property {[number, number]} [at] `place`: metres, the frame of the floor
 * @property {number} [within] `place`: metres that still count as right
 * @property {string} why
 * @property {string} twin equal for the left and right version of one question
 * @property {string[]} [themes] what it asks about; questions that share one do not stand in one quiz
 * @property {string} [coverage] id of the coverage it is about
 * @property {string} [picture] key in the play's pictures
 * @property {string} [shows] the picture in words
 * @property {string} [answer] key of the picture shown after the answer
 * @property {Clip} [clip] motion before the answer
 * @property {Clip} [then] motion after it: the right branch
 * @property {string} [moment] anchor of the moment on the play's page
 *
 * @typedef {object} Bank
 * @property {1} version
 * @property {string} play
 * @property {string} name
 * @property {Question[]} questions
 *
 * @typedef {object} PlayEntry
 * @property {string} id
 * @property {string} name
 * @property {string} series
 * @property {string} bank address of the bank, relative to the index
 * @property {string} [pictures]
 * @property {string} [page] address of the play's page, relative to the index
 * @property {string} [motion] address of its motion data
 * @property {number[]} counts questions by position, 0 to 5
 *
 * @typedef {object} Tonight
 * @property {string} id
 * @property {string} against
 * @property {string} date
 * @property {string[]} plays ids
 * @property {Record<string, number>} coverages weights by coverage id
 * @property {number} questions
 *
 * @typedef {object} Index
 * @property {1} version
 * @property {string} book fingerprint of the book the questions come from
 * @property {PlayEntry[]} plays
 * @property {Tonight[]} tonight
 * @property {{name: string, at: [number, number]}[]} spots for choosing a place by name
 * @property {Floor} floor
 *
 * @typedef {object} Floor Metres; enough to draw half a court.
 * @property {number} halfWidth @property {number} depth @property {number} halfLane @property {number} freeThrow
 * @property {number} rim @property {number} arc @property {number} corner @property {number} join
 *
 * @typedef {object} Seat Whose phone it is.
 * @property {string} who roster key
 * @property {number[]} positions
 *
 * @typedef {number[]} Choice indexes into `options` in the bank's order, or `[x, y]` for a place
 *
 * @typedef {object} Result One finished quiz, to be sent home later.
 * @property {1} version
 * @property {string} who
 * @property {string} quiz id of the game plan, or "practice"
 * @property {string} book
 * @property {number} attempt 1 is the one that counts
 * @property {number} ended milliseconds since 1970
 * @property {Record<string, {choice: Choice, right: boolean, play: string}>} answers by question id
 */

export {};
