/** What judges a build, in one piece: fetched once the build itself has been painted. */
export { assess } from '../../assess/assess.ts'
export { closeAnswered } from '../../assess/jobs.ts'
