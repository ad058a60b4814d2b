package browser

// Hostile is what a worksheet from elsewhere may hold.
var Hostile = []string{
	`<script>window.pwned = 1; alert(1)</script>`,
	`<img src=x onerror="window.pwned=1">`, `<img src="http://127.0.0.1:9/i.png">`, `![i](http://127.0.0.1:9/j.png)`, `![i](file:///etc/passwd)`, `![i](data:text/html,<script>window.pwned=1</script>)`,
	`<a href="javascript:window.pwned=1" id="js">x</a>`, `[x](javascript:window.pwned=1)`, `[x](data:text/html;base64,PHNjcmlwdD4=)`, `[x](file:///etc/passwd)`, `<javascript:alert(1)>`,
	`<a href=" java&#x09;script:window.pwned=1">x</a>`,
	`<style>body{background:url(http://127.0.0.1:9/s)}</style>`, `<p style="background:url(http://127.0.0.1:9/p)">x</p>`, `<link rel=stylesheet href="http://127.0.0.1:9/l.css">`,
	`<meta http-equiv="refresh" content="0;url=http://127.0.0.1:9/m">`, `<base href="http://127.0.0.1:9/">`,
	`<form action="http://127.0.0.1:9/f"><input name=x autofocus onfocus="window.pwned=1"><button>x</button></form>`,
	`<iframe src="http://127.0.0.1:9/f" srcdoc="<script>parent.pwned=1</script>"></iframe>`, `<object data="http://127.0.0.1:9/o"></object>`, `<embed src="http://127.0.0.1:9/e">`,
	`<svg onload="window.pwned=1"><script>window.pwned=1</script><image href="http://127.0.0.1:9/v"/><a href="javascript:window.pwned=1"><text>x</text></a></svg>`,
	`<math><mtext><table><mglyph><style><img src=x onerror="window.pwned=1"></style></mglyph></table></mtext></math>`,
	`<template><img src=x onerror="window.pwned=1"></template>`, `<noscript><p title="</noscript><img src=x onerror=window.pwned=1>"></noscript>`,
	`<div id="top" name="body">x</div>`, `<img name="getElementById" alt="x" src="">`, `<p id="q-a">x</p>`, `<a id="documentElement"></a>`,
	`</div></section></main></body></html>`, `<details open ontoggle="window.pwned=1"><summary>x</summary></details>`,
	`<video src="http://127.0.0.1:9/v" autoplay></video>`, `<audio src="http://127.0.0.1:9/a"></audio>`, `<input type=image src="http://127.0.0.1:9/b">`,
	`<p class="block failure danger">x</p>`, `<table background="http://127.0.0.1:9/t"><tr><td>x`, `<!--><img src=x onerror=window.pwned=1>-->`, `<![CDATA[<img src=x onerror=window.pwned=1>]]>`,
	"`a [V] = <img src=x onerror=window.pwned=1>`", "# <img src=x onerror=window.pwned=1> head", "| <script>window.pwned=1</script> [V] |\n| --- |\n| <img src=x onerror=window.pwned=1> |",
	"```working\na = 4 V  # <img src=x onerror=window.pwned=1> </div></main>\nb = \"<script>window.pwned=1</script>\"\nlimit a <= 3 V \"<img src=x onerror=window.pwned=1>\"\nc = <img src=x onerror=window.pwned=1>\nuse \"<img src=x onerror=window.pwned=1>.md\"\n```",
}
