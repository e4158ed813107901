// Runs every rule that axe-core has switched on, and the one on target sizes, over the whole page.
(async () => {
  const { violations, incomplete, passes } = await axe.run(document, { rules: { 'target-size': { enabled: true } } })
  const say = (kind) => ({ id, help, nodes }) => `${kind} ${id} (${help}): ${nodes.slice(0, 3).map((node) => `${node.html.slice(0, 160)} ${[...node.any, ...node.all, ...node.none].map((check) => check.message).join('; ').slice(0, 240)}`).join(' | ')}`
  return {
    found: [...violations.map(say('axe')), ...incomplete.map(say('axe cannot tell'))],
    passed: passes.map(({ id }) => id),
    nodes: passes.reduce((sum, { nodes }) => sum + nodes.length, 0),
  }
})()
