// The camera: frames go to the program one after the other until a record is whole.

const camera = {
  stream: undefined,

  async start() {
    let stream;
    try {
      stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment", width: { ideal: 1920 }, height: { ideal: 1080 } } });
    } catch {
      say("The browser gives this page no camera. Take a photograph instead, and choose it above.");
      return;
    }
    this.stop(); // what a second press on the button may have started
    this.stream = stream;
    let whole;
    try {
      byId("viewfinder").hidden = false;
      byId("camera").textContent = "Stop the camera";
      byId("video").srcObject = stream;
      await byId("video").play();
      say("Hold the whole code into the picture, flat and sharp, as large as it fits.");
      whole = await this.watch(stream);
    } catch (fault) {
      // A camera that the reader stopped ends what waits for it, too.
      if (this.stream === stream) say(`The camera was stopped: ${textOf(fault.message)}`);
    } finally {
      if (this.stream === stream) this.stop();
    }
    if (whole) await open(async (found) => found.push(whole), "A code was read.");
  },

  stop() {
    this.stream?.getTracks().forEach((track) => track.stop());
    this.stream = undefined;
    byId("video").srcObject = null;
    byId("viewfinder").hidden = true;
    byId("camera").textContent = "Read the code with the camera";
  },

  // watch reads frames until a record is whole, and gives it; undefined where the
  // camera was stopped before.
  async watch(stream) {
    const video = byId("video");
    let told = "";
    while (this.stream === stream) {
      if (video.videoWidth > 0) {
        const { rgba, width, height } = drawn(video, video.videoWidth, video.videoHeight);
        let outcome = { name: "", ...(await functions.readPixels(rgba, width, height, false)) };
        if (outcome.missing && this.stream === stream) [outcome] = await joined([outcome]);
        if (!outcome.error && this.stream === stream) return outcome;
        functions.forget(outcome.input);
        if (outcome.missing && this.stream === stream) {
          const words = partsWords(outcome.missing) + " Hold its code into the picture.";
          if (words !== told) say((told = words));
        }
      }
      await painted();
    }
  },
};
