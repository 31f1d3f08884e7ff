/** Which conductors stand behind which fuse: asked by other rules as well. The law itself stands in protection/. */
export { protectedBy } from './protection/reach.ts'
