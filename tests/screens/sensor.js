// A sensor in the page: a phone against a tube, with an error of its own of two degrees in each direction. `edge` turns it in the
// plane of its screen. The angles come of whole frames that are turned and taken apart again, not of the formula that reads them.
(() => {
  window.DeviceOrientationEvent ??= class extends Event {}
  window.phone = { right: 0, towards: 0, edge: 0, heading: 0, noise: 0, shake: 0 }
  const rad = Math.PI / 180
  const times = (a, b) => a.map((row) => b[0].map((_, j) => row.reduce((sum, one, k) => sum + one * b[k][j], 0)))
  const about = (axis, deg) => {
    const [s, c] = [Math.sin(deg * rad), Math.cos(deg * rad)]
    return [[[1, 0, 0], [0, c, -s], [0, s, c]], [[c, 0, s], [0, 1, 0], [-s, 0, c]], [[c, -s, 0], [s, c, 0], [0, 0, 1]]][axis]
  }
  // Z-X'-Y'' with beta within half a turn and gamma within a quarter, as the specification has them.
  const angles = (r) => {
    let [alpha, beta, gamma] = [Math.atan2(-r[0][1], r[1][1]), Math.asin(Math.max(-1, Math.min(1, r[2][1]))), Math.atan2(-r[2][0], r[2][2])]
    if (Math.abs(gamma) > Math.PI / 2) {
      gamma -= Math.PI * Math.sign(gamma)
      beta = Math.PI * (beta < 0 ? -1 : 1) - beta
      alpha += Math.PI
    }
    return { alpha: ((alpha / rad) % 360 + 360) % 360, beta: beta / rad, gamma: gamma / rad }
  }
  setInterval(() => {
    const { right, towards, edge, heading, noise, shake } = window.phone
    const off = () => (Math.random() - 0.5) * 2 * (noise + shake)
    const lean = times(about(1, right + off()), about(0, towards + off()))
    const device = times(times(about(2, heading), times(lean, about(0, 90))), about(2, edge))
    // Two degrees about each axis of the device in which that shows.
    const sensor = times(device, times(about(0, 2), times(about(1, 2), about(2, 2))))
    dispatchEvent(Object.assign(new Event('deviceorientation'), angles(sensor)))
  }, 16)
})()
